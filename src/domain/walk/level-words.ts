import type { Level } from '../lab/level';
import { levelInUnitOf } from '../lab/level-in-unit';
import type { Reading } from '../lab/reading';
import { levelText } from '../lab/verdict-words';

/**
 * A level as it is said beside a result: in the result's unit, so that the two
 * can be compared by ear, then as it was written: "5 µg/L (0.005 mg/L)"; as
 * written alone where no power of ten lies between the units.
 */
export function levelBeside(level: Level, reading: Reading): string {
  const inUnit = levelInUnitOf(level, reading);
  return inUnit === null ? levelText(level) : `${inUnit} (${levelText(level)})`;
}
