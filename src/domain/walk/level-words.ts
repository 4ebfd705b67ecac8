import { decimalOf, plainText, timesPowerOfTen } from '../lab/decimal';
import type { Level } from '../lab/level';
import type { Reading } from '../lab/reading';
import { valueOf } from '../lab/reading';
import { levelText } from '../lab/verdict-words';

/**
 * A level as it is said beside a result: in the result's unit, so that the two
 * can be compared by ear, then as it was written: "5 ug/L (0.005 mg/L)". Exact,
 * by a power of ten; as written alone where that does not lie between the units.
 */
export function levelBeside(level: Level, reading: Reading): string {
  const written = levelText(level);
  const amount = valueOf(reading);
  const unit = reading.result.unit?.trim();
  const number = level.value && decimalOf(level.value.text);
  if (!level.value || !amount || !unit || !number || unit === level.input.unit.trim())
    return written;
  const [from, into] = [level.value.unit, amount.unit];
  const isAlike = from.dimension === into.dimension && from.times === into.times;
  if (!isAlike || from.power === into.power) return written;
  return `${plainText(timesPowerOfTen(number, from.power - into.power))} ${unit} (${written})`;
}
