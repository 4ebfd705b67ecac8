import type { LevelInput } from '../../../src/domain/lab/level';
import type { ResultInput } from '../../../src/domain/lab/reading';

/** A result in µg/L with nothing said but its value. */
export const aResult = (value: string | null, more: Partial<ResultInput> = {}): ResultInput => ({
  sample: 'DP-1-S1',
  cas: '71-43-2',
  analyte: 'Benzene',
  fraction: null,
  method: null,
  run: null,
  value,
  unit: 'µg/L',
  detected: null,
  lab_qualifier: null,
  validation_qualifier: null,
  detection_limit: null,
  reporting_limit: null,
  ...more,
});

/** A level for benzene; 5 µg/L is the federal one, 40 CFR 141.61(a)(2). */
export const aLevel = (value = '5', unit = 'µg/L', more: Partial<LevelInput> = {}): LevelInput => ({
  set: 'A',
  cas: '71-43-2',
  analyte: 'Benzene',
  matrix: null,
  fraction: null,
  value,
  unit,
  decides: null,
  ...more,
});
