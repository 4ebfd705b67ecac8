import type { DuplicateOver } from '../../lab/duplicates-over';
import { levelInUnitOf } from '../../lab/level-in-unit';
import { valueOf } from '../../lab/reading';
import type { SamplesApart } from '../../lab/samples-apart';
import type { JudgedResult } from '../../lab/site-results';
import { levelText, resultText } from '../../lab/verdict-words';
import { listed } from '../words';

const valueSaid = ({ reading }: JudgedResult) =>
  resultText(reading, valueOf(reading)) || (reading.result.value ?? 'not detected');

/** " (level 2 µg/L)", in the unit of the result where the level is written in another. */
const levelSaid = ({ judged: { match }, reading }: JudgedResult) =>
  match.level ? ` (level ${levelInUnitOf(match.level, reading) ?? levelText(match.level)})` : '';

/** Names a sentence carries: a day's points are few enough to be read out. */
const MOST_POINTS = 12;

/**
 * What a duplicate holds over a level, and where it may be from: "DUP-1, a
 * duplicate whose parent is not told, exceeds: Vinyl chloride 3.32 µg/L (level 2
 * µg/L). It repeats one of the points sampled on 2025-10-14, GP-01 and GP-02; the
 * field samples of none of them exceed it."
 */
export function duplicateOverSaid({ duplicate, over, points, by }: DuplicateOver): string {
  const values = listed(
    over.map(({ result }) => `${result.row.analyte} ${valueSaid(result)}${levelSaid(result)}`),
  );
  if (by === 'parent')
    return `${duplicate.id} exceeds where ${duplicate.parent ?? ''}, which it repeats, does not: ${values}.`;
  const says = `${duplicate.id}, a duplicate whose parent is not told, exceeds: ${values}.`;
  const also = listed([...new Set(over.flatMap(({ alsoAt }) => alsoAt))], MOST_POINTS);
  const it = over.length > 1 ? 'any of these' : 'it';
  const [first] = points;
  if (first === undefined) return `${says} No point is known that it could be of.`;
  if (points.length === 1)
    return `${says} It is of ${first}, whose field sample ${also === '' ? 'does not' : 'does too'}.`;
  const when = by === 'day' ? ` on ${duplicate.time?.slice(0, 10) ?? ''}` : '';
  return `${says} It repeats one of the points sampled${when}, ${listed(points, MOST_POINTS)}; ${
    also === ''
      ? `the field samples of none of them exceed ${it}`
      : `of these ${also} ${also.includes(' ') ? 'exceed' : 'exceeds'} ${it} by its own sample`
  }.`;
}

/** "GP-05 was sampled more than once, and one sample exceeds where another does not: Trichloroethene 9.23 µg/L and 3.03 µg/L (level 5 µg/L)." */
export const samplesApartSaid = ({ screen, pairs }: SamplesApart) =>
  `${screen.id} was sampled more than once, and one sample exceeds where another does not: ${listed(
    pairs.map(
      ({ over, under }) =>
        `${over.row.analyte} ${valueSaid(over)} and ${valueSaid(under)}${levelSaid(over)}`,
    ),
  )}.`;
