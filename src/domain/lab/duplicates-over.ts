import type { Sample } from '../site/schema';
import type { Site } from '../site/site';
import { ASKED_AT_FIRST, askedOf, judgedIn } from './asked-results';
import { judgedList, type JudgedSelection } from './judged-selection';
import { locationOfSample, parentOf } from './sample-place';
import { onlyRows, type Selection } from './selection';
import type { JudgedResult } from './site-results';
import { outcomeWithCode } from './verdict-columns';
import { isOver } from './verdict';
import { worseResultFirst } from './worst';

/** A field duplicate that exceeds a level where no field sample of its point is known to. */
export type DuplicateOver = {
  readonly duplicate: Sample;
  /** One an analyte, the worst first. */
  readonly over: readonly {
    readonly result: JudgedResult;
    /** Of `points` those whose own field samples exceed it too. */
    readonly alsoAt: readonly string[];
  }[];
  /** The point it repeats; where nobody told, every point sampled on its day. */
  readonly points: readonly string[];
  /** How the points are known: by the sample it repeats, by its own screen, by its day, or by its event alone. */
  readonly by: 'parent' | 'screen' | 'day' | 'event';
};

const isRowOver = ({ codes }: JudgedSelection, row: number) =>
  isOver(outcomeWithCode(codes[row] ?? 0).verdict);

/**
 * What exceeds in field duplicates and would not be seen among the field samples
 * alone: duplicates whose parent does not exceed the same, or is not named. In
 * the order of the table.
 * @param event  null where every event is looked at
 */
export function duplicatesOver(
  site: Site,
  set: string | null,
  event: string | null,
): DuplicateOver[] {
  const all = askedOf(site, event, {
    ...ASKED_AT_FIRST,
    samples: 'all samples',
    allEvents: event === null,
  });
  const judged = judgedIn(site, set, all);
  if (judged.columns !== all.columns) return [];
  const { sample, samples } = all.columns;
  const isKind = (kind: Sample['kind']) =>
    Uint8Array.from(samples, (one) => (one.sample.kind === kind ? 1 : 0));
  const [isDuplicate, isField] = [isKind('field duplicate'), isKind('field sample')];
  const over = judgedList(
    onlyRows(judged, (row) => isDuplicate[sample[row] ?? 0] === 1 && isRowOver(judged, row)),
  );
  if (over.length === 0) return [];
  const keys = new Set(over.map(({ reading }) => reading.key));
  const { kind, kinds } = all.columns;
  const fieldOver = judgedList(
    onlyRows(
      judged,
      (row) =>
        isField[sample[row] ?? 0] === 1 &&
        keys.has(kinds[kind[row] ?? 0]?.key ?? '') &&
        isRowOver(judged, row),
    ),
  );
  return [...new Set(over.map((one) => one.sample))].flatMap((duplicate) => {
    const own = over.filter((one) => one.sample === duplicate).toSorted((a, b) => worseResultFirst(a.judged, b.judged)); // prettier-ignore
    return tellingOf(site, duplicate, own, fieldOver, all);
  });
}

function tellingOf(
  site: Site,
  duplicate: Sample,
  own: readonly JudgedResult[],
  fieldOver: readonly JudgedResult[],
  all: Selection,
): DuplicateOver[] {
  const parent = parentOf(site, duplicate);
  const place = locationOfSample(site, duplicate);
  const day = duplicate.time?.slice(0, 10) ?? null;
  const mayRepeat = (sample: Sample) =>
    sample.kind === 'field sample' &&
    sample.event === duplicate.event &&
    sample.matrix === duplicate.matrix &&
    (day === null || sample.time?.slice(0, 10) === day);
  const points = place
    ? [place.id]
    : [...new Set(all.columns.samples.flatMap(({ sample, location }) => (location && mayRepeat(sample) ? location.id : [])))]; // prettier-ignore
  const over = own.flatMap((result) => {
    const same = fieldOver.filter(
      ({ reading, row }) =>
        reading.key === result.reading.key && row.fraction === result.row.fraction,
    );
    if (parent && same.some(({ sample }) => sample === parent)) return [];
    const alsoAt = same.flatMap(({ sample, location }) =>
      location && sample.event === duplicate.event && points.includes(location.id)
        ? location.id
        : [],
    );
    return [{ result, alsoAt: [...new Set(alsoAt)] }];
  });
  const by = parent ? 'parent' : place ? 'screen' : day === null ? 'event' : 'day';
  return over.length > 0 ? [{ duplicate, over, points, by }] : [];
}
