/**
 * Runs the tests of the domain in Stryker's own process: a mutant costs the
 * tests that reach it and no more, where starting vitest for each costs seconds.
 * Each mutant gets its modules anew, and the quickest tests go first.
 */
import { appendFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join, relative, resolve } from 'node:path';
import type { MutantCoverage, MutantResult } from '@stryker-mutator/api/core';
import { commonTokens, declareClassPlugin, PluginKind, tokens } from '@stryker-mutator/api/plugin';
import type { StrykerOptions } from '@stryker-mutator/api/core';
import {
  determineHitLimitReached,
  DryRunStatus,
  toMutantRunResult,
  TestStatus,
  type DryRunOptions,
  type DryRunResult,
  type MutantRunOptions,
  type MutantRunResult,
  type TestResult,
  type TestRunner,
} from '@stryker-mutator/api/test-runner';
import fc from 'fast-check';
import { collector, type Test } from './collect';
import { Loader } from './modules';

// The same cases for every mutant; a case that fails is enough, however large it is.
fc.configureGlobal({ seed: 20, numRuns: 25, endOnFailure: true });

type Switch = {
  activeMutant?: string | undefined;
  currentTestId?: string | undefined;
  mutantCoverage?: MutantCoverage | undefined;
  hitCount?: number | undefined;
  hitLimit?: number | undefined;
};

/** What the first run finds out, kept for a process that follows one that was stopped. */
type Known = {
  /** Milliseconds of each test, and of loading each test file. */
  readonly times: Record<string, number>;
  /** The tests that come by a mutant, and the test files that come by it while they load. */
  readonly tests: Record<string, string[]>;
  readonly files: Record<string, string[]>;
};
const NOTHING: Known = { times: {}, tests: {}, files: {} };

/**
 * A change has outlived the tests when the quickest that reach it have run for
 * this long, by the times of the first run: the score is the less for it, never
 * the more.
 */
const PATIENCE = 4000; // ms

/** Tests that take longer wait until all others have run. */
const DEAR = 60; // ms

const KNOWN = '.mutation-known.json';
const around: { __stryker__?: Switch } = globalThis as never;
const ns: Switch = (around.__stryker__ ??= {});
const fileOf = (id: string) => (id.includes('#') ? id.slice(0, id.indexOf('#')) : '');

const UNIT = 'tests/unit';

/** The test files whose names begin so, in the order of their names. */
const testsNamed = (beginnings: readonly string[]): string[] =>
  readdirSync(UNIT, { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => name.endsWith('.test.ts') && !name.endsWith('.svelte.test.ts'))
    .filter((name) => beginnings.some((each) => name.startsWith(each)))
    .sort()
    .map((name) => join(UNIT, name));

class Runner implements TestRunner {
  static readonly inject = tokens(commonTokens.options);
  readonly #beginnings: string[];
  #known: Known | null = null;

  constructor(options: StrykerOptions) {
    this.#beginnings = options['tests'] as string[];
  }

  capabilities() {
    return { reloadEnvironment: true };
  }

  async dryRun(options: DryRunOptions): Promise<DryRunResult> {
    const mutated = new Set((options.files ?? []).map((file) => resolve(file)));
    const tests: TestResult[] = [];
    const known: Known = { times: {}, tests: {}, files: {} };
    const coverage: MutantCoverage = { static: {}, perTest: {} };
    const loading: MutantCoverage['static'] = {};
    ns.activeMutant = undefined;
    ns.mutantCoverage = coverage;
    for (const file of testsNamed(this.#beginnings)) {
      coverage.static = {};
      const start = performance.now();
      const { loader, tests: found } = this.#open(file);
      known.times[file] = performance.now() - start;
      for (const id of Object.keys(coverage.static)) (known.files[id] ??= []).push(file);
      Object.assign(loading, coverage.static);
      const under = loader.under(resolve(file));
      if (![...mutated].some((each) => under.has(each))) continue;
      for (const test of found) {
        ns.currentTestId = test.id;
        const result = await this.#run(test);
        ns.currentTestId = undefined;
        known.times[test.id] = result.timeSpentMs;
        tests.push(result);
      }
    }
    coverage.static = loading;
    for (const [test, ids] of Object.entries(coverage.perTest))
      for (const id of Object.keys(ids)) (known.tests[id] ??= []).push(test);
    writeFileSync(KNOWN, JSON.stringify(known));
    this.#known = known;
    return { status: DryRunStatus.Complete, tests, mutantCoverage: coverage };
  }

  async mutantRun(options: MutantRunOptions): Promise<MutantRunResult> {
    const { times, tests: byTest, files: byFile } = this.#whatIsKnown();
    const { id } = options.activeMutant;
    const whole = new Set(options.mutantActivation === 'static' ? byFile[id] : []);
    const single = new Set(byTest[id]);
    const isDue = (test: string) => single.has(test) || whole.has(fileOf(test));
    const files = [...new Set([...whole, ...[...single].map(fileOf)])];
    const subject = basename(options.sandboxFileName, '.ts');
    const turns = files.map((file) => {
      const due = Object.keys(times).filter((test) => fileOf(test) === file && isDue(test));
      const time = due.reduce((sum, test) => sum + (times[test] ?? 0), times[file] ?? 0);
      return { file, time: basename(file, '.test.ts') === subject ? 0 : time };
    });
    turns.sort((a, b) => a.time - b.time);
    ns.hitCount = 0;
    ns.hitLimit = options.hitLimit;
    ns.mutantCoverage = undefined;
    const results: TestResult[] = [];
    const failed = () => results.at(-1)?.status === TestStatus.Failed;
    const opened = new Map<string, readonly Test[]>();
    let spent = 0;
    const isStatic = options.mutantActivation === 'static';
    try {
      for (const dear of [false, true])
        for (const { file } of turns) {
          if (spent > PATIENCE || failed()) break;
          let tests = opened.get(file);
          if (!tests) {
            spent += times[file] ?? 0;
            ns.activeMutant = isStatic ? id : undefined;
            ({ tests } = this.#open(file));
            ns.activeMutant = id;
            opened.set(file, tests);
          }
          const timeOf = (test: Test) => times[test.id] ?? 0;
          const due = tests.filter((test) => isDue(test.id) && timeOf(test) > DEAR === dear);
          for (const test of due.toSorted((a, b) => timeOf(a) - timeOf(b))) {
            if (spent > PATIENCE || failed()) break;
            spent += timeOf(test);
            results.push(await this.#run(test));
          }
        }
    } catch (error) {
      // A mutant that stops a file from loading stops all its tests.
      results.push({
        id: 'load',
        name: 'the file loads',
        timeSpentMs: 0,
        status: TestStatus.Failed,
        failureMessage: String(error),
      });
    } finally {
      ns.activeMutant = undefined;
    }
    const timeout = determineHitLimitReached(ns.hitCount, ns.hitLimit);
    return toMutantRunResult(timeout ?? { status: DryRunStatus.Complete, tests: results });
  }

  #open(file: string): { readonly loader: Loader; readonly tests: readonly Test[] } {
    const { tests, vitest } = collector(file);
    const loader = new Loader(
      new Map<string, unknown>([
        ['vitest', vitest],
        ['fast-check', fc],
      ]),
    );
    loader.load(resolve(file));
    return { loader, tests };
  }

  async #run({ id, name, run }: Test): Promise<TestResult> {
    const start = performance.now();
    const timed = () => ({ id, name, timeSpentMs: performance.now() - start });
    try {
      await run();
      return { ...timed(), status: TestStatus.Success };
    } catch (error) {
      return { ...timed(), status: TestStatus.Failed, failureMessage: String(error).slice(0, 500) };
    }
  }

  #whatIsKnown(): Known {
    this.#known ??= existsSync(KNOWN)
      ? (JSON.parse(readFileSync(KNOWN, 'utf8')) as Known)
      : NOTHING;
    return this.#known;
  }
}

/** Writes each change that no test noticed as soon as it is tried. */
class Survivors {
  static readonly inject = tokens(commonTokens.options);
  readonly #file: string;

  constructor(options: StrykerOptions) {
    this.#file = options['survivors'] as string;
  }

  onMutantTested(mutant: Readonly<MutantResult>) {
    const { fileName, location, mutatorName, replacement, status } = mutant;
    if (status !== 'Survived' && status !== 'NoCoverage') return;
    const { start, end } = location;
    const lines = readFileSync(fileName, 'utf8')
      .split('\n')
      .slice(start.line - 1, end.line);
    const was =
      lines.length === 1 ? lines[0]?.slice(start.column - 1, end.column - 1) : lines.join('\n');
    const where = `${relative('.', fileName)}:${start.line} ${mutatorName} ${status}`;
    const place = lines[0]?.trim() ?? '';
    appendFileSync(this.#file, `${where}\n    in  ${place}\n  - ${was}\n  + ${replacement}\n`);
  }
}

export const strykerPlugins = [
  declareClassPlugin(PluginKind.TestRunner, 'in-process', Runner),
  declareClassPlugin(PluginKind.Reporter, 'survivors', Survivors),
];
