import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { TALLY_FILE } from '../../reporter';

const ROOT = fileURLToPath(new URL('../../..', import.meta.url));

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(ROOT, 'node_modules', '.cache-reporter-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Runs vitest on test files written for the occasion, and returns the end of what it prints. */
const run = (files: Record<string, string>, environment: NodeJS.ProcessEnv = {}) => {
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  writeFileSync(join(folder, 'vitest.config.mjs'), 'export default {};');
  const { stdout, status } = spawnSync(
    process.execPath,
    [
      join(ROOT, 'node_modules', 'vitest', 'vitest.mjs'),
      'run',
      ...['--root', folder],
      ...['--reporter', 'default', '--reporter', join(ROOT, 'tests', 'reporter.ts')],
    ],
    { encoding: 'utf8', env: { ...process.env, [TALLY_FILE]: undefined, ...environment } },
  );
  return { lastLine: stdout.trimEnd().split('\n').at(-1), status };
};

const GOOD = "import { test } from 'vitest'; test('a', () => {}); test('b', () => {});";
const BAD = "import { test } from 'vitest'; test('c', () => { throw new Error('no'); });";
const UNLOADABLE = "import { test } from './not-there'; test('d', () => {});";
const UNPREPARED = `import { beforeAll, describe, test } from 'vitest';
  describe('s', () => { beforeAll(() => { throw new Error('no'); }); test('e', () => {}); });`;

test('the last line counts what passed and what failed, unloadable files and suites too', () => {
  const good = run({ 'good.test.mjs': GOOD });
  expect(good).toEqual({ lastLine: '2 passed, 0 failed', status: 0 });
  const mixed = run({
    'bad.test.mjs': BAD,
    'unloadable.test.mjs': UNLOADABLE,
    'unprepared.test.mjs': UNPREPARED,
  });
  expect(mixed).toEqual({ lastLine: '2 passed, 3 failed', status: 1 });
}, 30_000);

test('a run added up by a larger command leaves its count in a file', () => {
  const file = join(folder, 'tally.json');
  run({ 'good.test.mjs': GOOD, 'bad.test.mjs': BAD }, { [TALLY_FILE]: file });
  expect(JSON.parse(readFileSync(file, 'utf8'))).toEqual({ passed: 2, failed: 1 });
}, 30_000);
