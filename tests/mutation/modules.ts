/**
 * Loads the project's TypeScript into this process, again and again: each
 * `Loader` has its own copy of every module, so that what one mutant left in a
 * module's memory never reaches the next. Texts are compiled once.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import { transformSync } from 'esbuild';

type Module = { exports: unknown };
type Body = (
  module: Module,
  exports: unknown,
  require: (name: string) => unknown,
  address: string,
  folder: string,
) => void;

const bodies = new Map<string, Body>();
const endings = ['', '.ts', '.json', '.svelte.ts', '/index.ts'];

const bodyOf = (path: string): Body => {
  const known = bodies.get(path);
  if (known) return known;
  const text = readFileSync(path, 'utf8');
  const { code } = transformSync(text, {
    loader: path.endsWith('.json') ? 'json' : 'ts',
    format: 'cjs',
    target: 'es2023',
    define: { 'import.meta.url': '__address', 'import.meta.dirname': '__folder' },
  });
  const script = new Script(
    `(function (module, exports, require, __address, __folder) {${code}\n})`,
    { filename: path },
  );
  const body = script.runInThisContext() as Body;
  bodies.set(path, body);
  return body;
};

const places = new Map<string, string>();

/** Where a relative import leads. */
const placeOf = (folder: string, name: string): string => {
  const wanted = resolve(folder, name);
  const known = places.get(wanted);
  if (known !== undefined) return known;
  const ending = endings.find((each) => /\.\w+$/.test(wanted + each) && existsSync(wanted + each));
  if (ending === undefined) throw new Error(`${name} is not found from ${folder}`);
  places.set(wanted, wanted + ending);
  return wanted + ending;
};

const fromPackages = createRequire(import.meta.url);

export class Loader {
  /** What each module imports of the project, by path. */
  readonly imports = new Map<string, string[]>();
  readonly #loaded = new Map<string, Module>();
  readonly #instead: ReadonlyMap<string, unknown>;

  /** `instead`: packages given here in place of the installed ones. */
  constructor(instead: ReadonlyMap<string, unknown>) {
    this.#instead = instead;
  }

  load(path: string): unknown {
    const known = this.#loaded.get(path);
    if (known) return known.exports;
    const module: Module = { exports: {} };
    this.#loaded.set(path, module);
    const folder = dirname(path);
    const imports: string[] = [];
    this.imports.set(path, imports);
    const require = (name: string): unknown => {
      if (this.#instead.has(name)) return this.#instead.get(name);
      if (!name.startsWith('.')) return fromPackages(name);
      const place = placeOf(folder, name);
      imports.push(place);
      return this.load(place);
    };
    bodyOf(path)(module, module.exports, require, pathToFileURL(path).href, folder);
    return module.exports;
  }

  /** Every project file a loaded one rests on, itself included. */
  under(path: string): Set<string> {
    const found = new Set<string>();
    const look = (each: string) => {
      if (found.has(each)) return;
      found.add(each);
      this.imports.get(each)?.forEach(look);
    };
    look(path);
    return found;
  }
}
