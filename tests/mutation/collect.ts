/** The part of vitest's interface that the tests of the domain use, collecting instead of running. */
import { format } from 'node:util';
import { expect, vi } from 'vitest';

type Deed = () => unknown;
type Row = readonly unknown[];

export type Test = {
  readonly id: string;
  readonly name: string;
  readonly run: () => Promise<void>;
};

type Suite = {
  readonly names: readonly string[];
  readonly before: Deed[];
  readonly beforeEach: Deed[];
  readonly afterEach: Deed[];
  readonly above: Suite | null;
  ready: Promise<void> | null;
};

const suite = (names: readonly string[], above: Suite | null): Suite => ({
  names,
  above,
  before: [],
  beforeEach: [],
  afterEach: [],
  ready: null,
});

/** What stands above a suite and itself, outermost first. */
const lineOf = (inner: Suite): Suite[] => (inner.above ? [...lineOf(inner.above), inner] : [inner]);

const prepared = (one: Suite): Promise<void> =>
  (one.ready ??= (async () => {
    if (one.above) await prepared(one.above);
    for (const deed of one.before) await deed();
  })());

const titled = (title: string, row: Row) =>
  title.includes('%') ? format(title, ...row).slice(0, 300) : title;

/** Collects one test file's tests; `vitest` is what the file imports under that name. */
export const collector = (file: string) => {
  const tests: Test[] = [];
  let here = suite([], null);
  const seen = new Map<string, number>();

  const test = (title: string, ...rest: readonly unknown[]) => {
    const deed = rest.find((each) => typeof each === 'function') as Deed;
    const own = here;
    const name = [...own.names, title].join(' ');
    const count = (seen.get(name) ?? 0) + 1;
    seen.set(name, count);
    const run = async () => {
      await prepared(own);
      for (const each of lineOf(own)) for (const first of each.beforeEach) await first();
      await deed();
      for (const each of lineOf(own).reverse()) for (const last of each.afterEach) await last();
    };
    tests.push({ id: `${file}#${name}${count > 1 ? ` (${count})` : ''}`, name, run });
  };
  const describe = (title: string, deed: Deed) => {
    const outer = here;
    here = suite([...outer.names, title], outer);
    deed();
    here = outer;
  };
  const each =
    (make: (title: string, deed: Deed) => void) =>
    (rows: readonly unknown[]) =>
    (title: string, deed: (...row: Row) => unknown) => {
      for (const one of rows) {
        const row: Row = Array.isArray(one) ? one : [one];
        make(titled(title, row), () => deed(...row));
      }
    };
  const vitest = {
    expect,
    vi,
    expectTypeOf: () => new Proxy(() => {}, { get: () => () => undefined }),
    test: Object.assign(test, { each: each(test) }),
    it: Object.assign(test, { each: each(test) }),
    describe: Object.assign(describe, { each: each(describe) }),
    beforeAll: (deed: Deed) => here.before.push(deed),
    beforeEach: (deed: Deed) => here.beforeEach.push(deed),
    afterEach: (deed: Deed) => here.afterEach.push(deed),
    afterAll: () => undefined,
  };
  return { tests, vitest };
};
