import { decimalOf, plainText, timesPowerOfTen } from './decimal';
import type { Level } from './level';
import type { Reading } from './reading';
import { withMicro } from './unit-shown';

/**
 * A level in the unit a result is reported in, exactly: "5 µg/L" for 0.005 mg/L.
 * Null where both are of one unit, or of units that no power of ten relates.
 */
export function levelInUnitOf({ value }: Level, { unit, result }: Reading): string | null {
  if (!value || !unit || unit.dimension !== value.unit.dimension) return null;
  const power = value.unit.power - unit.power;
  const written = decimalOf(value.text);
  if (power === 0 || unit.times !== value.unit.times || !written) return null;
  return withMicro(`${plainText(timesPowerOfTen(written, power))} ${result.unit?.trim() ?? ''}`);
}
