import fc from 'fast-check';
import type { LevelInput } from '../../../src/domain/lab/level';
import type { ResultInput } from '../../../src/domain/lab/reading';
import { aLevel, aResult } from './a-result';

export const unit = fc.constantFrom(
  'µg/L',
  'mg/L',
  'ng/L',
  'ug/L',
  'g/L',
  'pCi/L',
  'mg/kg',
  'barrels',
);

/** A plain positive decimal of up to four figures. */
export const number = fc
  .tuple(fc.integer({ min: 1, max: 9999 }), fc.integer({ min: -4, max: 2 }))
  .map(([digits, power]) => String(Number(`${digits}e${power}`)));

const letters = fc.constantFrom('', '', '', 'U', 'J', 'UJ', 'R', 'NJ', 'E', 'B', 'D', 'Q');

const value = fc.oneof(
  { weight: 6, arbitrary: number },
  { weight: 2, arbitrary: number.map((n) => `<${n}`) },
  { weight: 1, arbitrary: number.map((n) => `>${n}`) },
  { weight: 1, arbitrary: fc.constantFrom('', 'ND', 'trace', '0', '1,20', 'NS') },
);

export const result: fc.Arbitrary<ResultInput> = fc
  .record({
    value,
    unit,
    lab_qualifier: letters,
    reporting_limit: fc.option(number),
    detection_limit: fc.option(number),
    validation_qualifier: fc.constantFrom('', '', '', '', 'U', 'J', 'R'),
  })
  .map((parts) => aResult(parts.value, parts));

export const level: fc.Arbitrary<LevelInput> = fc
  .tuple(number, fc.constantFrom('µg/L', 'mg/L', 'ng/L'))
  .map(([text, unitText]) => aLevel(text, unitText));
