/**
 * The rooms of `src/` and what each may import. Nothing looks upward: what a
 * hydrogeologist knows (`domain`) depends on nothing but itself and small
 * numeric packages, and each room further out on those before it.
 */
import ts from 'typescript';

type Room = 'domain' | 'io' | 'app' | 'map' | 'ui' | 'cli';

type Rule = {
  readonly rooms: readonly Room[];
  /** Package names; `*` at the end stands for any ending. */
  readonly packages: readonly string[];
};

/** A package is added here when it is chosen, with its reason in DEVELOPERS.md. */
export const RULES: Readonly<Record<Room, Rule>> = {
  domain: {
    rooms: ['domain'],
    packages: ['delaunator', 'robust-predicates'],
  },
  io: {
    rooms: ['domain', 'io'],
    packages: [
      'papaparse',
      'proj4',
      'fflate',
      'idb',
      'geojson',
      'read-excel-file',
      '@rgrove/parse-xml',
      'pmtiles',
    ],
  },
  app: { rooms: ['domain', 'io', 'app'], packages: ['svelte', 'comlink'] },
  map: {
    rooms: ['domain', 'app', 'map'],
    packages: ['svelte', 'maplibre-gl', '@turf/*', 'geojson', '@fontsource/*'],
  },
  ui: {
    rooms: ['domain', 'app', 'map', 'ui'],
    packages: ['svelte', '@fontsource/*', 'jspdf', 'svg2pdf.js'],
  },
  cli: { rooms: ['domain', 'io', 'cli'], packages: ['node:*'] },
};

/** Names the domain may not mention: the page, the clock, chance, the network, the machine. */
const OUTSIDE_THE_DOMAIN = new Set([
  'document',
  'window',
  'globalThis',
  'navigator',
  'localStorage',
  'sessionStorage',
  'indexedDB',
  'fetch',
  'XMLHttpRequest',
  'WebSocket',
  'Worker',
  'setTimeout',
  'setInterval',
  'requestAnimationFrame',
  'queueMicrotask',
  'performance',
  'crypto',
  'process',
  'console',
]);

const LONGEST_COMPONENT = 200;
const LONGEST_DOMAIN_FILE = 300;

/** A file under `src/`: its path from there, with forward slashes, and its text. */
export type SourceFile = { readonly path: string; readonly text: string };

const isRoom = (name: string): name is Room => Object.hasOwn(RULES, name);

const allows = (pattern: string, name: string) =>
  pattern.endsWith('*')
    ? name.startsWith(pattern.slice(0, -1))
    : name === pattern || name.startsWith(`${pattern}/`);

/** A component's scripts, or the whole of any other file. */
const codeOf = ({ path, text }: SourceFile): string =>
  path.endsWith('.svelte')
    ? [...text.matchAll(/<script\b[^>]*>([\s\S]*?)<\/script>/g)].map(([, code]) => code).join('\n')
    : text;

/** What a file imports, types and dynamic imports and workers' files included. */
const importsOf = (file: SourceFile): string[] => {
  const code = codeOf(file);
  const { importedFiles } = ts.preProcessFile(code, true, true);
  const besideIt = code.matchAll(/new URL\(\s*['"`](\.[^'"`]*)['"`]\s*,\s*import\.meta\.url/g);
  return [
    ...importedFiles.map(({ fileName }) => fileName),
    ...[...besideIt].map(([, name]) => name ?? ''),
  ];
};

/** Where a relative import leads, from `src/`; null when it leaves `src/`. */
const destination = (from: string, to: string): string | null => {
  const parts = from.split('/').slice(0, -1);
  for (const step of to.split('/')) {
    if (step === '..') {
      if (parts.pop() === undefined) return null;
    } else if (step !== '.') parts.push(step);
  }
  return parts.join('/');
};

const importProblem = (room: Room, from: string, to: string): string | null => {
  const rule = RULES[room];
  if (to.startsWith('.')) {
    const target = destination(from, to);
    const targetRoom = target?.split('/')[0] ?? '';
    if (target === null || !isRoom(targetRoom)) return `imports ${to}, which is in no room of src`;
    return rule.rooms.includes(targetRoom)
      ? null
      : `imports ${to}: ${room} may not import ${targetRoom}`;
  }
  return rule.packages.some((pattern) => allows(pattern, to))
    ? null
    : `imports ${to}, which is not among the packages of ${room}`;
};

const isPropertyName = (node: ts.Identifier): boolean => {
  const { parent } = node;
  return (
    (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
    (ts.isPropertyAssignment(parent) && parent.name === node) ||
    (ts.isPropertySignature(parent) && parent.name === node)
  );
};

/** What a domain file touches of the world outside, comments and texts apart. */
const outsideMentions = (file: SourceFile): string[] => {
  const tree = ts.createSourceFile(file.path, file.text, ts.ScriptTarget.Latest, true);
  const found: string[] = [];
  const report = (node: ts.Node, what: string) => {
    const { line } = tree.getLineAndCharacterOfPosition(node.getStart());
    found.push(`line ${line + 1} touches ${what}`);
  };
  const visit = (node: ts.Node) => {
    if (ts.isIdentifier(node) && OUTSIDE_THE_DOMAIN.has(node.text) && !isPropertyName(node)) {
      report(node, node.text);
    }
    if (ts.isMetaProperty(node)) report(node, 'import.meta');
    if (ts.isPropertyAccessExpression(node)) {
      const name = node.getText().replaceAll(/\s/g, '');
      if (name === 'Date.now' || name === 'Math.random') report(node, name);
    }
    const isDate =
      (ts.isNewExpression(node) || ts.isCallExpression(node)) &&
      node.expression.getText() === 'Date' &&
      (ts.isCallExpression(node) || !node.arguments?.length);
    if (isDate) report(node, 'the present date');
    ts.forEachChild(node, visit);
  };
  visit(tree);
  return found;
};

const lengthProblem = (room: string, { path, text }: SourceFile): string | null => {
  const lines = text.trimEnd().split('\n').length;
  if (path.endsWith('.svelte') && lines > LONGEST_COMPONENT) {
    return `has ${lines} lines; a component has at most ${LONGEST_COMPONENT}`;
  }
  if (room === 'domain' && lines > LONGEST_DOMAIN_FILE) {
    return `has ${lines} lines; a domain file has at most ${LONGEST_DOMAIN_FILE}, more is two subjects`;
  }
  return null;
};

/** Every breach of the house's rules in a file, as sentences; none when it keeps them. */
export const breaches = (file: SourceFile): string[] => {
  const { path } = file;
  const [room = ''] = path.split('/');
  if (!isRoom(room) || !path.includes('/')) return [`${path} stands in no room of src`];
  const problems = [
    ...importsOf(file).map((to) => importProblem(room, path, to)),
    ...(room === 'domain' ? outsideMentions(file) : []),
    lengthProblem(room, file),
  ];
  return problems.filter((problem) => problem !== null).map((problem) => `${path} ${problem}`);
};
