/**
 * `npm test`: formatting, lint, types, then the tests, the browser's last. All
 * of it runs even when an early part fails; the last line adds everything up,
 * each of the three checks counting as one test.
 *
 *     npm test -- tests/unit/water     the checks, and only those tests
 */
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { TALLY_FILE, tallyLine, type Tally } from './reporter';

const ROOT = fileURLToPath(new URL('..', import.meta.url));

type Check = { readonly name: string; readonly program: string; readonly words: readonly string[] };

const CHECKS: readonly Check[] = [
  { name: 'lint', program: 'eslint/bin/eslint.js', words: ['.', '--max-warnings', '0'] },
  {
    name: 'types',
    program: 'svelte-check/bin/svelte-check',
    words: ['--tsconfig', './tsconfig.json', '--fail-on-warnings'],
  },
  { name: 'formatting', program: 'prettier/bin/prettier.cjs', words: ['--check', '.'] },
];

const run = (
  program: string,
  words: readonly string[],
  options: { readonly aloud: boolean; readonly environment?: NodeJS.ProcessEnv },
): Promise<{ readonly passed: boolean; readonly printed: string }> =>
  new Promise((resolve) => {
    const child = spawn(process.execPath, [join(ROOT, 'node_modules', program), ...words], {
      cwd: ROOT,
      env: { ...process.env, ...options.environment },
      stdio: options.aloud ? 'inherit' : ['ignore', 'pipe', 'pipe'],
    });
    let printed = '';
    const keep = (text: Buffer) => (printed += text.toString());
    child.stdout?.on('data', keep);
    child.stderr?.on('data', keep);
    child.on('error', (error) => resolve({ passed: false, printed: String(error) }));
    child.on('close', (code) => resolve({ passed: code === 0, printed }));
  });

const seconds = (since: number) => `${((Date.now() - since) / 1000).toFixed(1)} s`;

const check = async ({ name, program, words }: Check): Promise<Tally> => {
  const start = Date.now();
  const { passed, printed } = await run(program, words, { aloud: false });
  console.log(`${passed ? 'passed' : 'FAILED'}  ${name}, ${seconds(start)}`);
  if (!passed) console.log(printed.trimEnd());
  return { passed: passed ? 1 : 0, failed: passed ? 0 : 1 };
};

const vitest = async (words: readonly string[]): Promise<Tally> => {
  const folder = mkdtempSync(join(tmpdir(), 'downgradient-tally-'));
  const file = join(folder, 'tally.json');
  try {
    const { passed } = await run('vitest/vitest.mjs', ['run', ...words], {
      aloud: true,
      environment: { [TALLY_FILE]: file },
    });
    const counted: Tally = existsSync(file)
      ? (JSON.parse(readFileSync(file, 'utf8')) as Tally)
      : { passed: 0, failed: 0 };
    // A run can break after its last test, or before its first.
    return passed || counted.failed > 0 ? counted : { ...counted, failed: 1 };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
};

const asked = process.argv.slice(2);
const runs =
  asked.length > 0
    ? [asked]
    : [
        ['--project', 'unit', '--project', 'component'],
        ['--project', 'browser'],
      ];

// The linter has one thread: the first tests run beside it. The browser's want the machine for themselves.
const [first = [], ...others] = runs;
const tallies = await Promise.all([...CHECKS.map(check), vitest(first)]);
for (const words of others) tallies.push(await vitest(words));

const total = tallies.reduce((sum, each) => ({
  passed: sum.passed + each.passed,
  failed: sum.failed + each.failed,
}));
console.log(tallyLine(total));
process.exitCode = total.failed === 0 ? 0 : 1;
