/**
 * Every benchmark, one after another, and one page of what they found:
 * `tests/bench/PAGE.md`. Ratios are against a peer in the same run; times alone
 * say little on a shared machine.
 *
 *     npm run bench                  all of them, half an hour or so
 *     npm run bench -- planes        those whose file has the word; the rest of the page stands
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Compared } from './rounds';

const FOLDER = fileURLToPath(new URL('.', import.meta.url));
const TOP = join(FOLDER, '..', '..');
const PAGE = join(FOLDER, 'PAGE.md');
/** What the scripts share, and this one. */
const NOT_RUN = new Set([
  'big-site.ts',
  'frames.ts',
  'lab-file.ts',
  'page-time.ts',
  'rounds.ts',
  'run.ts',
]);

const asked = process.argv.slice(2);
const isAsked = (file: string) => asked.length === 0 || asked.some((word) => file.includes(word));
const files = readdirSync(FOLDER).filter((file) => file.endsWith('.ts') && isAsked(file));
const benches = files.filter((file) => file.endsWith('.bench.ts'));
const scripts = files.filter((file) => !file.endsWith('.bench.ts') && !NOT_RUN.has(file));

type Timed = { readonly name: string; readonly mean: number; readonly rme: number };
type Listed = {
  readonly files: readonly {
    readonly filepath: string;
    readonly groups: readonly {
      readonly fullName: string;
      readonly benchmarks: readonly Timed[];
    }[];
  }[];
};

const node = (words: readonly string[], environment: NodeJS.ProcessEnv = {}) =>
  spawnSync(process.execPath, words, {
    cwd: TOP,
    stdio: 'inherit',
    env: { ...process.env, ...environment },
  }).status ?? 1;

const folder = mkdtempSync(join(tmpdir(), 'downgradient-bench-'));
const failed: string[] = [];
const HEAD = `# Benchmarks

Written by \`npm run bench\`. A ratio is a time over the first task's of the same group, in the same run; under 1 is faster. Each part says when it was run and how busy the machine was then: the processes that wanted a core, on average over the minute before.
`;

/** The page as it stands, by file. */
const parts = new Map<string, string>(
  (existsSync(PAGE) ? readFileSync(PAGE, 'utf8') : '')
    .split(/^## /m)
    .slice(1)
    .map((part) => [part.slice(0, part.indexOf('\n')).trim(), `## ${part.trimEnd()}\n`] as const),
);
let page: string[] = [];

const begun = () =>
  `${new Date().toISOString().slice(0, 10)}, Node ${process.versions.node}, ${(loadavg()[0] ?? 0).toFixed(1)} wanting a core.`;

/** Runs one file and keeps its part of the page. */
function part(file: string, run: () => void): void {
  page = [`## ${file}`, '', begun()];
  run();
  if (failed.includes(file)) page.push('', 'It did not run to its end.');
  parts.set(file, `${page.join('\n')}\n`);
}

/** What a file found by itself: comparisons in rounds, and plain lines. */
function found(collected: string): void {
  const lines = existsSync(collected) ? readFileSync(collected, 'utf8').trim().split('\n') : [];
  for (const line of lines) {
    const one = JSON.parse(line) as Compared | { readonly title: string; readonly says: string };
    if ('says' in one) page.push('', `${one.title.trim()}: ${one.says}`);
    else comparison(one);
  }
}

function comparison({ title, tasks }: Compared): void {
  page.push(
    '',
    `### ${title}`,
    '',
    '| task | median, ms | ratio | from | to |',
    '|---|---|---|---|---|',
  );
  for (const { name, milliseconds, ratio, least, most } of tasks)
    page.push(
      `| ${name} | ${milliseconds.toFixed(2)} | ${ratio.toFixed(2)} | ${least.toFixed(2)} | ${most.toFixed(2)} |`,
    );
}

/** A group of vitest's, the first benchmark standing for 1. */
function timedGroup(name: string, benchmarks: readonly Timed[]): void {
  const [first] = benchmarks;
  page.push('', `### ${name}`, '', '| task | mean, ms | ± | ratio |', '|---|---|---|---|');
  for (const one of benchmarks)
    page.push(
      `| ${one.name} | ${one.mean.toFixed(3)} | ${one.rme.toFixed(1)} % | ${(one.mean / (first?.mean ?? NaN)).toFixed(3)} |`,
    );
}

for (const file of benches)
  part(file, () => {
    const timed = join(folder, `${file}.json`);
    const collected = join(folder, `${file}.jsonl`);
    const status = node(
      [
        join('node_modules', 'vitest', 'vitest.mjs'),
        ...[
          'bench',
          '--run',
          '--project',
          'unit',
          '--outputJson',
          timed,
          join('tests', 'bench', file),
        ],
      ],
      { BENCH_COLLECTED: collected },
    );
    if (status !== 0) failed.push(file);
    if (existsSync(timed))
      for (const one of (JSON.parse(readFileSync(timed, 'utf8')) as Listed).files)
        for (const { fullName, benchmarks } of one.groups)
          timedGroup(fullName.replace(/^.*\.bench\.ts > /, ''), benchmarks);
    found(collected);
  });

for (const file of scripts)
  part(file, () => {
    const collected = join(folder, `${file}.jsonl`);
    const tsx = join('node_modules', 'tsx', 'dist', 'cli.mjs');
    const status = node([tsx, join('tests', 'bench', file)], { BENCH_COLLECTED: collected });
    if (status !== 0) failed.push(file);
    found(collected);
  });

rmSync(folder, { recursive: true, force: true });
const there = [...parts].filter(([file]) => existsSync(join(FOLDER, file)));
const sorted = there.toSorted(([a], [b]) => (a < b ? -1 : 1)).map(([, text]) => text);
writeFileSync(PAGE, [HEAD, ...sorted].join('\n'));
if (failed.length > 0) console.log(`Did not run to their end: ${failed.join(', ')}.`);
process.exitCode = failed.length > 0 ? 1 : 0;
