/** The table of PAGE.md: one row a file, made from Stryker's report. */

type Mutant = { readonly mutatorName: string; readonly status: string };
export type Report = { readonly files: Record<string, { readonly mutants: readonly Mutant[] }> };

/** Counts of a file; `texts` are the changes of a text alone, also counted in the others. */
type Row = {
  readonly file: string;
  readonly killed: number;
  readonly overtime: number;
  readonly survived: number;
  readonly unreached: number;
  readonly texts: number;
  readonly textsKilled: number;
};

const NOTICED = ['Killed', 'Timeout', 'RuntimeError'];

const rowOf = (file: string, mutants: readonly Mutant[]): Row => {
  const count = (...statuses: string[]) =>
    mutants.filter(({ status }) => statuses.includes(status)).length;
  const texts = mutants.filter(
    ({ mutatorName, status }) => mutatorName === 'StringLiteral' && status !== 'Ignored',
  );
  return {
    file,
    killed: count('Killed', 'RuntimeError'),
    overtime: count('Timeout'),
    survived: count('Survived'),
    unreached: count('NoCoverage'),
    texts: texts.length,
    textsKilled: texts.filter(({ status }) => NOTICED.includes(status)).length,
  };
};

const percent = (part: number, whole: number) =>
  whole === 0 ? '–' : ((100 * part) / whole).toFixed(1);

const printed = (row: Row): string => {
  const noticed = row.killed + row.overtime;
  const all = noticed + row.survived + row.unreached;
  const cells = [
    row.file,
    all,
    row.killed,
    row.overtime,
    row.survived,
    row.unreached,
    `${row.textsKilled} of ${row.texts}`,
    percent(noticed, all),
    percent(noticed - row.textsKilled, all - row.texts),
  ];
  return `| ${cells.join(' | ')} |`;
};

const ROW =
  /^\| (src\/\S+\.ts) \| \d+ \| (\d+) \| (\d+) \| (\d+) \| (\d+) \| (\d+) of (\d+) \|.*$/gm;

const rowsIn = (page: string): Row[] =>
  [...page.matchAll(ROW)].map(([, file = '', ...cells]) => {
    const [killed = 0, overtime = 0, survived = 0, unreached = 0, textsKilled = 0, texts = 0] =
      cells.map(Number);
    return { file, killed, overtime, survived, unreached, texts, textsKilled };
  });

const FOLDERS = ['src/domain/water/surface/', 'src/domain/water/', 'src/domain/lab/'];
const folderOf = (file: string) => FOLDERS.find((folder) => file.startsWith(folder)) ?? '';

const sum = (name: string, rows: readonly Row[]): Row => {
  const of = (key: Exclude<keyof Row, 'file'>) => rows.reduce((total, row) => total + row[key], 0);
  return {
    file: name,
    killed: of('killed'),
    overtime: of('overtime'),
    survived: of('survived'),
    unreached: of('unreached'),
    texts: of('texts'),
    textsKilled: of('textsKilled'),
  };
};

const HEAD = `| file | changes | noticed | by time | survived | no test reaches | texts | score, % | without texts, % |
|---|---|---|---|---|---|---|---|---|`;
const TABLE = '## Figures';

/** The page with the rows of a report put in their places and the sums worked out anew. */
export const withRows = (page: string, report: Report): string => {
  const rows = new Map(rowsIn(page).map((row) => [row.file, row]));
  for (const [file, { mutants }] of Object.entries(report.files))
    rows.set(file, rowOf(file, mutants));
  const sorted = [...rows.values()].sort((a, b) => (a.file < b.file ? -1 : 1));
  const sums = FOLDERS.map((folder) =>
    sum(
      folder.replace(/\/$/, ''),
      sorted.filter(({ file }) => folderOf(file) === folder),
    ),
  );
  const text = page.slice(0, page.indexOf(TABLE));
  return `${text}${TABLE}

${HEAD}
${[...sums, sum('all', sorted)].map(printed).join('\n')}

${HEAD}
${sorted.map(printed).join('\n')}
`;
};
