import { writeFileSync } from 'node:fs';
import type { Reporter, SerializedError, TestModule, TestRunEndReason } from 'vitest/node';

export type Tally = { readonly passed: number; readonly failed: number };

/** The last line of a run, alone and plain, for people and for scripts. */
export const tallyLine = ({ passed, failed }: Tally) => `${passed} passed, ${failed} failed`;

/** Names the file a run's tally is written to, for the command that adds the runs up. */
export const TALLY_FILE = 'DOWNGRADIENT_TALLY';

/**
 * A file that cannot be loaded, a suite whose preparation breaks and an error
 * outside any test count as one failed test each: their tests never ran.
 */
export const tally = (
  modules: readonly TestModule[],
  strayErrors: readonly SerializedError[],
  reason: TestRunEndReason,
): Tally => {
  let passed = 0;
  let failed = strayErrors.length;
  for (const module of modules) {
    if (module.errors().length > 0) failed++;
    for (const suite of module.children.allSuites()) if (suite.errors().length > 0) failed++;
    for (const test of module.children.allTests()) {
      const { state } = test.result();
      if (state === 'passed') passed++;
      if (state === 'failed') failed++;
    }
  }
  // Nothing ran at all: no Chromium, no build, no test by that name.
  if (reason !== 'passed' && failed === 0) failed = 1;
  return { passed, failed };
};

export default class TallyReporter implements Reporter {
  onTestRunEnd(
    modules: readonly TestModule[],
    strayErrors: readonly SerializedError[],
    reason: TestRunEndReason,
  ) {
    const counted = tally(modules, strayErrors, reason);
    const file = process.env[TALLY_FILE];
    if (file) writeFileSync(file, JSON.stringify(counted));
    else console.log(tallyLine(counted));
  }
}
