import { groupBy } from '../../group';
import type { SiteReading } from '../../lab/site-results';
import { cell } from '../../site/cite';
import type { Sample } from '../../site/schema';
import type { Finding, Rule } from '../finding';
import { hoursBetween } from '../moments';
import { finding, listed } from '../words';
import { placesOf, resultSaid, resultsAt, samplesAt } from './event-results';

/** Samples of one screen within so many hours are not two rounds of it. A judgement, no source. */
const ONE_VISIT = 1;

/** Analytes a sentence gives both results of. */
const SHOWN = 2;

/**
 * Two field samples of one screen from one visit with results of the same
 * analyte, neither said to repeat the other: a duplicate nobody named, or a
 * sample joined to the wrong screen by a slip in its name.
 */
export const sampledTwice: Rule = ({ site, event }) => {
  if (event === null) return [];
  const field = samplesAt(site, event).filter(
    ({ kind, screen, time }) => kind === 'field sample' && screen !== null && time !== null,
  );
  const pairs = [...groupBy(field, ({ screen }) => screen).values()].flatMap(pairsOf);
  if (pairs.length === 0) return [];
  const bySample = groupBy(resultsAt(site, event), ({ sample }) => sample.id);
  return pairs.flatMap(([one, other]): Finding[] => {
    const both = sameAnalytes(bySample.get(one.id) ?? [], bySample.get(other.id) ?? []);
    if (both.length === 0) return [];
    const said = both
      .slice(0, SHOWN)
      .map(([first, second]) => `${resultSaid(first)} and ${resultSaid(second)}`);
    return [
      finding('sampled twice at once', `${one.id}, ${other.id}`, event, {
        severity: 'caution',
        who: placesOf(site, [one]),
        says: `${one.id} and ${other.id} are two field samples of ${one.screen ?? ''} from one visit, ${whenSaid(one, other)}, with results of the same analytes: ${listed(said)}${both.length > SHOWN ? ` and ${both.length - SHOWN} more` : ''}.`,
        todo: 'If one repeats the other, make it a field duplicate and name its parent; if its name is a slip, give it the screen it is of.',
        cells: [one, other].flatMap((sample) => [
          cell('samples', sample, 'screen'),
          cell('samples', sample, 'time'),
        ]),
      }),
    ];
  });
};

/** Every two of a screen's samples that are of one visit and one interval. */
const pairsOf = (samples: readonly Sample[]) =>
  samples.flatMap((one, i) =>
    samples
      .slice(i + 1)
      .flatMap((other): (readonly [Sample, Sample])[] =>
        isOneVisit(one, other) && isOneInterval(one, other) ? [[one, other]] : [],
      ),
  );

const isOneVisit = ({ time: one }: Sample, { time: other }: Sample) =>
  one !== null && other !== null && Math.abs(hoursBetween(one, other)) < ONE_VISIT;

const isOneInterval = (one: Sample, other: Sample) =>
  one.top_depth?.value === other.top_depth?.value &&
  one.base_depth?.value === other.base_depth?.value;

const whenSaid = ({ time: one }: Sample, { time: other }: Sample) =>
  one === other
    ? `both at ${(one ?? '').replace('T', ' ')}`
    : `at ${[one, other].map((time) => (time ?? '').replace('T', ' ')).join(' and ')}`;

function sameAnalytes(of: readonly SiteReading[], others: readonly SiteReading[]) {
  const keyOf = ({ reading, row }: SiteReading) => `${reading.key}|${row.fraction ?? ''}`;
  const byKey = new Map(others.map((result) => [keyOf(result), result]));
  return of.flatMap((result): (readonly [SiteReading, SiteReading])[] => {
    const other = byKey.get(keyOf(result));
    return other ? [[result, other]] : [];
  });
}
