/**
 * Every benchmark, one after another, and one page of what they found:
 * `tests/bench/PAGE.md`. Ratios are against a peer in the same run; times alone
 * say little on a shared machine.
 *
 *     npm run bench                  all of them, half an hour or so
 *     npm run bench -- planes        those whose file has the word
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Compared } from './rounds';

const FOLDER = fileURLToPath(new URL('.', import.meta.url));
const TOP = join(FOLDER, '..', '..');
const PAGE = join(FOLDER, 'PAGE.md');
/** What the scripts share, and this one. */
const NOT_RUN = new Set(['rounds.ts', 'run.ts', 'lab-file.ts', 'page-time.ts', 'frames.ts']);

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
const page: string[] = [
  '# Benchmarks',
  '',
  `Written by \`npm run bench\` on ${new Date().toISOString().slice(0, 10)}, Node ${process.versions.node}. A ratio is a time over the first task's of the same group, in the same run; under 1 is faster.`,
];

/** A group of vitest's, the first benchmark standing for 1. */
function timedGroup(name: string, benchmarks: readonly Timed[]): void {
  const [first] = benchmarks;
  page.push('', `### ${name}`, '', '| task | mean, ms | ± | ratio |', '|---|---|---|---|');
  for (const one of benchmarks)
    page.push(
      `| ${one.name} | ${one.mean.toFixed(3)} | ${one.rme.toFixed(1)} % | ${(one.mean / (first?.mean ?? NaN)).toFixed(3)} |`,
    );
}

for (const file of benches) {
  const found = join(folder, `${file}.json`);
  const status = node([
    join('node_modules', 'vitest', 'vitest.mjs'),
    ...['bench', '--run', '--project', 'unit', '--outputJson', found, join('tests', 'bench', file)],
  ]);
  if (status !== 0) failed.push(file);
  if (!existsSync(found)) continue;
  page.push('', `## ${file}`);
  for (const one of (JSON.parse(readFileSync(found, 'utf8')) as Listed).files)
    for (const { fullName, benchmarks } of one.groups)
      timedGroup(fullName.replace(/^.*\.bench\.ts > /, ''), benchmarks);
}

for (const file of scripts) {
  const collected = join(folder, `${file}.jsonl`);
  const tsx = join('node_modules', 'tsx', 'dist', 'cli.mjs');
  if (node([tsx, join('tests', 'bench', file)], { BENCH_COLLECTED: collected }) !== 0)
    failed.push(file);
  page.push('', `## ${file}`);
  const lines = existsSync(collected) ? readFileSync(collected, 'utf8').trim().split('\n') : [];
  for (const line of lines) {
    const found = JSON.parse(line) as Compared | { readonly title: string; readonly says: string };
    if ('says' in found) page.push('', `${found.title.trim()}: ${found.says}`);
    else {
      page.push(
        '',
        `### ${found.title}`,
        '',
        '| task | median, ms | ratio | from | to |',
        '|---|---|---|---|---|',
      );
      for (const { name, milliseconds, ratio, least, most } of found.tasks)
        page.push(
          `| ${name} | ${milliseconds.toFixed(2)} | ${ratio.toFixed(2)} | ${least.toFixed(2)} | ${most.toFixed(2)} |`,
        );
    }
  }
}

rmSync(folder, { recursive: true, force: true });
if (failed.length > 0) page.push('', `Did not run to their end: ${failed.join(', ')}.`);
if (asked.length === 0) writeFileSync(PAGE, `${page.join('\n')}\n`);
else console.log(page.join('\n'));
process.exitCode = failed.length > 0 ? 1 : 0;
