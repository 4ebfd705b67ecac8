import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate, symbolsIn } from '../../../src/domain/arithmetic';
import { plainNumber, printWork } from '../../../src/domain/print-work';
import { metres, type LengthUnit } from '../../../src/domain/units';
import type { Term, Work } from '../../../src/domain/work';

const none = new Map<string, number>();

test.each([
  ['102.47 - 8.31', 94.16],
  ['91.50 + 1.20 * 0.73', 92.376],
  ['-2 ^ 2', -4],
  ['2 ^ -1', 0.5],
  ['sqrt(3^2 + 4^2) / 2', 2.5],
  ['azimuth(1, 1)', 45],
  ['azimuth(-1, 0)', 270],
  ['(1 + 2) * (3 - -4)', 21],
])('%s works out to %d', (formula, answer) => {
  expect(evaluate(formula, none)).toBeCloseTo(answer, 12);
});

test.each(['1 +', '2 * (3', 'a + 1', '1 / 0', 'sqrt(-1)', 'alert(1)', '1; 2', ''])(
  '“%s” has no answer',
  (formula) => expect(evaluate(formula, none)).toBeNull(),
);

test('the symbols of a formula are told from its functions', () => {
  expect(symbolsIn('azimuth(-a, -b) + sqrt(a) * σ_h')).toEqual(['a', 'b', 'σ_h']);
});

/** The printed line worked with the numbers printed in it, by another route than ours. */
const onACalculator = (line: string): number =>
  new Function('sqrt', 'azimuth', `return ${line.replaceAll('−', '-').replaceAll('^', '**')}`)(
    Math.sqrt,
    (e: number, n: number) => ((Math.atan2(e, n) * 180) / Math.PI + 360) % 360,
  ) as number;

describe('a printed line', () => {
  const term = (
    symbol: string,
    value: number,
    dimension: Term['dimension'],
    written?: { text: string; unit: LengthUnit },
  ): Term => ({
    symbol,
    name: symbol,
    value,
    dimension,
    from: { kind: 'citation', text: 'test' },
    ...(written ? { text: written.text, recordedUnit: written.unit } : {}),
  });

  test('DP-3: measuring point at 102.47 ft, water 8.31 ft down, stands at 94.16 ft', () => {
    const work: Work = {
      title: 'Head',
      symbol: 'head',
      formula: 'mp - dtw',
      terms: [
        term('mp', metres(102.47, 'ft'), 'length', { text: '102.47', unit: 'ft' }),
        term('dtw', metres(8.31, 'ft'), 'length', { text: '8.31', unit: 'ft' }),
      ],
      answer: { value: metres(94.16, 'ft'), dimension: 'length' },
      decimals: 2,
    };
    expect(printWork(work, { vertical: 'ft', grid: 'us-ft' })).toMatchObject({
      formula: 'head = mp - dtw',
      substituted: '102.47 - 8.31',
      answer: '94.16',
      unit: 'ft',
    });
  });

  test('a drop in feet over a distance in metres is printed in one unit with its conversion', () => {
    const work: Work = {
      title: 'Gradient',
      symbol: 'i',
      formula: 'drop / run',
      terms: [
        term('drop', metres(0.6, 'ft'), 'length', { text: '0.60', unit: 'ft' }),
        term('run', 33.528, 'distance', { text: '33.528', unit: 'm' }),
      ],
      answer: { value: metres(0.6, 'ft') / 33.528, dimension: 'slope' },
      decimals: 6,
    };
    const printed = printWork(work, { vertical: 'ft', grid: 'm' });
    expect(printed.terms[1]?.conversion).toBe('110.00 = 33.528 × 3.280839895');
    expect(onACalculator(printed.substituted)).toBeCloseTo(0.005455, 6);
  });

  test('gives the printed answer within half its last digit, whatever the numbers and units', () => {
    const value = fc.double({ min: -3000, max: 3000, noNaN: true });
    const unit = fc.constantFrom<LengthUnit>('m', 'ft', 'us-ft');
    fc.assert(
      fc.property(value, value, fc.nat(5), unit, unit, (a, b, decimals, vertical, grid) => {
        fc.pre(Math.abs(a) > 1e-9 || Math.abs(b) > 1e-9);
        const works: Work[] = [
          {
            title: 'Direction',
            symbol: 'θ',
            formula: 'azimuth(-a, -b)',
            terms: [term('a', a / 1e6, 'slope'), term('b', b / 1e6, 'slope')],
            answer: {
              value: ((Math.atan2(-a, -b) * 180) / Math.PI + 360) % 360,
              dimension: 'angle',
            },
            decimals: Math.min(decimals, 3),
          },
          {
            title: 'Mean',
            symbol: 'h',
            formula: '(a + b) / 2',
            terms: [term('a', a, 'length'), term('b', b, 'distance')],
            answer: { value: (a + b) / 2, dimension: 'length' },
            decimals,
          },
        ];
        for (const work of works) {
          const printed = printWork(work, { vertical, grid });
          const apart = Math.abs(onACalculator(printed.substituted) - plainNumber(printed.answer));
          const around = work.answer.dimension === 'angle' ? Math.min(apart, 360 - apart) : apart;
          expect(around).toBeLessThanOrEqual(0.5 * 10 ** -work.decimals * (1 + 1e-6));
        }
      }),
    );
  });
});
