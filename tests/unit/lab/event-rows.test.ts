import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { resultRowsOf } from '../../../src/domain/lab/event-rows';
import { chosenRuns } from '../../../src/domain/lab/runs';
import { resultsIn, resultsOf, siteReaderOf } from '../../../src/domain/lab/site-results';
import type { ResultRow } from '../../../src/domain/site/schema';
import type { Site } from '../../../src/domain/site/site';
import { openFolder } from '../folder';

/** The results of an event, told row by row. */
const oneByOne = ({ results, samples }: Site, event: string) =>
  [...results].filter(({ sample }) => samples.get(sample)?.event === event);

describe.each(['osier-bend', 'quellmoor'])('results of an event of %s', (name) => {
  const { site } = openFolder(`demo-sites/${name}`);

  test('are those of its samples, in the order of the table', () => {
    const found = [...site.events.keys()].map((event) => [...resultRowsOf(site, event)]);
    expect(found).toEqual([...site.events.keys()].map((event) => oneByOne(site, event)));
    expect(found.flat().length).toBeGreaterThan(0);
  });

  test('follow the samples when these are of other events', () => {
    const events = [...site.events.keys()];
    const ids = [...site.samples.keys()];
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...events), { minLength: ids.length, maxLength: ids.length }),
        (given) => {
          // prettier-ignore
          const samples = new Map(
          [...site.samples].map(([id, sample], i) => [id, { ...sample, event: given[i] ?? '' }]),
        );
          const changed = { ...site, samples };
          for (const event of events)
            expect([...resultRowsOf(changed, event)]).toEqual(oneByOne(changed, event));
        },
      ),
      { numRuns: 5 },
    );
  });

  test('and their runs give way as if every run of the site were compared', () => {
    const { row } = siteReaderOf(site);
    // Every third result the dilution of the one before it.
    const results = [...site.results].map((result, i, all): ResultRow =>
      i % 3 === 1 ? { ...(all[i - 1] ?? result), row: result.row, run: 'dilution' } : result,
    );
    const runs = { ...site, results };
    const all = results.flatMap((result) => row(result)?.reading ?? []);
    const expected = chosenRuns(all).replaced;
    const replaced = [...site.events.keys()].flatMap((event) => resultsIn(runs, event).replaced);
    expect(new Set(resultsOf(runs).replaced)).toEqual(new Set(expected));
    expect(new Set(replaced)).toEqual(new Set(expected));
    expect(expected.length).toBeGreaterThan(0);
  });

  test('are none for an event the site does not have', () => {
    expect([...resultRowsOf(site, 'no such round')]).toEqual([]);
  });
});
