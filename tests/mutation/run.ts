/**
 * `npm run mutation`: changes the arithmetic of `src/domain/water` and
 * `src/domain/lab` one small piece at a time (Stryker) and counts the changes
 * that no test notices. Outside `npm test`: the whole takes an hour on one busy
 * core. The figures go into PAGE.md here after each part, so a run can be
 * stopped; the survivors of a part are in `.cache/mutation/<part>.txt`.
 *
 *     npm run mutation                                   every part
 *     npm run mutation -- planes statistics              some parts
 *     npm run mutation -- src/domain/water/plane.ts      some files
 *     npm run mutation -- --texts planes                 texts changed too
 *
 * Stryker makes the changes, chooses the tests that reach each, and judges. Its
 * own runner starts vitest anew for every change, which took over a second
 * each; `runner.ts` runs the same test files inside one process instead, some
 * ten changes a second, with 25 cases of fast-check for each property and one
 * seed. Texts are left alone unless asked for: what is said to people is held by
 * tests of whole pages (`tests/unit/main-job`), and an empty word in a sentence
 * tells nothing about the arithmetic.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { withRows, type Report } from './page';
import { PARTS, testsOf, type Part } from './parts';
import settings from './stryker.json' with { type: 'json' };

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const KEPT = join(ROOT, '.cache/mutation');
const PAGE = join(ROOT, 'tests/mutation/PAGE.md');

const words = process.argv.slice(2);
const withTexts = words.includes('--texts');
const asked = words.filter((word) => word !== '--texts');
const isFile = (word: string) => word.endsWith('.ts');
const unknown = asked.filter((word) => !isFile(word) && !(word in PARTS));
if (unknown.length > 0) {
  console.error(`No part is named ${unknown.join(', ')}: ${Object.keys(PARTS).join(', ')}.`);
  process.exit(2);
}
const files = asked.filter(isFile);
const wanted: Readonly<Record<string, Part>> =
  files.length > 0
    ? { files: { change: files, tests: testsOf(files) } }
    : Object.fromEntries(
        Object.entries(PARTS).filter(([name]) => asked.length === 0 || asked.includes(name)),
      );

mkdirSync(KEPT, { recursive: true });
for (const [name, { change, tests }] of Object.entries(wanted)) {
  const report = join(KEPT, `${name}.json`);
  const ledger = join(KEPT, `${name}.txt`);
  const config = join(KEPT, `${name}.config.json`);
  for (const old of [report, ledger]) rmSync(old, { force: true });
  const here = {
    mutate: change,
    tests,
    survivors: ledger,
    jsonReporter: { fileName: report },
    ...(withTexts ? { mutator: { excludedMutations: [] } } : {}),
  };
  writeFileSync(config, JSON.stringify({ ...settings, ...here }));
  const { status } = spawnSync(
    process.execPath,
    [join(ROOT, 'node_modules/@stryker-mutator/core/bin/stryker.js'), 'run', config],
    { cwd: ROOT, stdio: 'inherit', env: { ...process.env, NODE_OPTIONS: '--import tsx' } },
  );
  if (status !== 0) process.exit(status ?? 1);
  const read = JSON.parse(readFileSync(report, 'utf8')) as Report;
  writeFileSync(PAGE, withRows(readFileSync(PAGE, 'utf8'), read));
}
