/**
 * A million results against the federal levels. The peer is PapaParse reading
 * the same rows as text, in the same run: reading and judging should take a
 * small part of that, and another set of levels a small part of this.
 */
import { readFileSync } from 'node:fs';
import Papa from 'papaparse';
import { bench, describe } from 'vitest';
import type { LevelInput } from '../../src/domain/lab/level';
import { resultReader, type ResultInput } from '../../src/domain/lab/reading';
import { levelSets } from '../../src/domain/lab/screening';
import { outcomeCodes, resultColumns } from '../../src/domain/lab/verdict-columns';

const SIZE = 1_000_000;
const FEW = { iterations: 3, warmupIterations: 1, time: 0, warmupTime: 0 };

const federal = Papa.parse<Record<string, string>>(
  readFileSync(
    new URL('../../src/io/levels/federal-drinking-water-2024.csv', import.meta.url),
    'utf8',
  ),
  { header: true, skipEmptyLines: true },
).data;

let seed = 20260531;
const random = () => (seed = (seed * 1664525 + 1013904223) % 2 ** 32) / 2 ** 32;

/** Six in ten not detected, limits and values over four powers of ten. */
function results(): ResultInput[] {
  return Array.from({ length: SIZE }, (_, i) => {
    const level = federal[Math.floor(random() * federal.length)] ?? {};
    const seen = random() > 0.6;
    const value = (10 ** (random() * 4 - 2)).toPrecision(2 + Math.floor(random() * 3));
    return {
      sample: `S${i >> 6}`,
      cas: level.cas || null,
      analyte: level.analyte ?? '',
      fraction: 'total',
      method: 'EPA 8260D',
      run: null,
      value: !seen && random() < 0.5 ? `<${value}` : value,
      unit: ['ug/L', 'µg/L', 'mg/L'][i % 3] ?? null,
      detected: null,
      lab_qualifier: seen ? (random() < 0.2 ? 'J' : null) : 'U',
      validation_qualifier: null,
      detection_limit: '0.2',
      reporting_limit: '1.0',
    };
  });
}

describe('a million results', () => {
  const rows = results();
  const levels = federal.map((row) => ({
    ...row,
    cas: row.cas || null,
    fraction: null,
    decides: null,
  }));
  const [set] = levelSets(levels as unknown as LevelInput[]).values();
  if (!set) throw new Error('no levels');
  const text = Papa.unparse(rows);
  function* read() {
    const reader = resultReader();
    for (const row of rows) yield reader(row);
  }
  const columns = resultColumns(read(), SIZE);

  bench('peer: PapaParse reads them as text', () => void Papa.parse(text), FEW);
  bench('read as reported, into columns', () => void resultColumns(read(), SIZE), FEW);
  bench(
    'judged one by one',
    () => {
      for (const reading of read()) set.outcomeFor(reading);
    },
    FEW,
  );
  bench('judged against another set, as columns', () => void outcomeCodes(columns, set), FEW);
});
