import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { basisInName, basisOf, CONFLICT, NITROGEN_SHARE } from '../../../src/domain/lab/basis';
import {
  amountIn,
  compareAmounts,
  unitOf,
  type ConcentrationUnit,
} from '../../../src/domain/lab/concentration-units';
import oracle from '../../fixtures/oracles/i_screening.json';

const unit = (text: string, solid = false): ConcentrationUnit => {
  const read = unitOf(text, solid);
  if (!read) throw new Error(`no unit: ${text}`);
  return read;
};

test.each(['ug/L', 'µg/L', 'μg/L', 'µg/l', 'UG/L', ' ug / L ', 'mcg/L', 'ng/mL', 'ppb'])(
  '“%s” is a µg/L',
  (text) => expect(amountIn(5, unit(text))).toBe(5),
);

// Factors of the oracle i_screening.json (exact decimals, written independently).
test.each(Object.entries(oracle._meta.unit_factors_to_mg_per_L))(
  'water: one %s is %s mg/L',
  (text, factor) => {
    const order = compareAmounts(
      { text: '1', unit: unit(text) },
      { text: factor, unit: unit('mg/L') },
    );
    expect(unit(text).dimension).toBe('mass per volume');
    expect(order).toBe(0);
  },
);

test.each(Object.entries(oracle._meta.unit_factors_to_mg_per_kg).filter(([text]) => text !== '%'))(
  'soil: one %s is %s mg/kg',
  (text, factor) => {
    const order = compareAmounts(
      { text: '1', unit: unit(text, true) },
      { text: factor, unit: unit('mg/kg') },
    );
    expect(unit(text, true).dimension).toBe('mass per mass');
    expect(order).toBe(0);
  },
);

test('1 mg/L is 1000 µg/L and 1,000,000 ng/L', () => {
  const [mg, ug, ng] = ['mg/L', 'µg/L', 'ng/L'].map((text) => unit(text));
  expect(compareAmounts({ text: '1', unit: mg! }, { text: '1000', unit: ug! })).toBe(0);
  expect(compareAmounts({ text: '1', unit: mg! }, { text: '1000000', unit: ng! })).toBe(0);
});

// The curie is 3.7e10 Bq exactly.
test('1 Bq/L is 27.027 pCi/L: 37 Bq/L are 1000 pCi/L exactly', () => {
  expect(
    compareAmounts({ text: '37', unit: unit('Bq/L') }, { text: '1000', unit: unit('pCi/L') }),
  ).toBe(0);
  expect(amountIn(1, unit('Bq/L')) / amountIn(1, unit('pCi/L'))).toBeCloseTo(27.027, 3);
});

test('7 million fibres per litre, either way', () => {
  expect(
    compareAmounts({ text: '7', unit: unit('MFL') }, { text: '7000000', unit: unit('fibers/L') }),
  ).toBe(0);
});

test('mass, activity, fibres and soil are four dimensions', () => {
  const dimensions = ['µg/L', 'pCi/L', 'MFL', 'mg/kg'].map((text) => unit(text).dimension);
  expect(new Set(dimensions).size).toBe(4);
});

test('a ppb is told apart: it is a µg/L only in dilute water', () => {
  expect(unit('ppb').parts).toBe(true);
  expect(unit('µg/L').parts).toBe(false);
  expect(unit('ppb', true).dimension).toBe('mass per mass');
});

test.each(['', 'mg', 'lb/gal', 'µg/m3', 'NTU', 'mg/L dry', 'toString', 'constructor'])(
  '“%s” is no unit of ours',
  (text) => expect(unitOf(text)).toBeNull(),
);

describe('as nitrogen or as the ion', () => {
  test.each([
    ['mg/L as N', 'N'],
    ['mg/L (as N)', 'N'],
    ['mg/L-N', 'N'],
    ['mg N/L', 'N'],
    ['mg-N/L', 'N'],
    ['mg/l as no3', 'NO3'],
    ['mg/L as P', 'P'],
    ['mg/L as CaCO3', 'CACO3'],
    ['mg/L', null],
  ])('the unit “%s” counts %s', (text, basis) => {
    expect(unit(text).basis).toBe(basis);
    expect(amountIn(1, unit(text))).toBe(1000);
  });

  test.each([
    ['Nitrate (as N)', 'N'],
    ['Nitrate as N', 'N'],
    ['Nitrate-N', 'N'],
    ['NO3-N', 'N'],
    ['Nitrate as NO3', 'NO3'],
    ['Orthophosphate as P', 'P'],
    ['Nitrate', null],
    ['Asbestos', null],
    ['n-Propylbenzene', null],
  ])('the name “%s” counts %s', (name, basis) => {
    expect(basisInName(name)).toBe(basis);
  });

  test('a unit as N beside a name as NO3 is a conflict', () => {
    expect(basisOf('N', basisInName('Nitrate as NO3'))).toBe(CONFLICT);
    expect(basisOf('N', basisInName('Nitrate'))).toBe('N');
    expect(basisOf('N', basisInName('Nitrate (as N)'))).toBe('N');
  });

  // Computed independently: nitrate as N is 0.225897 of NO3, so that 10 mg/L N is
  // 44.268 mg/L NO3; nitrite 0.304457, so that 1 mg/L N is 3.2845 mg/L NO2.
  test('10 mg/L of nitrate-nitrogen is 44.268 mg/L of nitrate, 1 of nitrite-nitrogen 3.2845', () => {
    expect(NITROGEN_SHARE.NO3).toBeCloseTo(0.225897, 6);
    expect(10 / NITROGEN_SHARE.NO3).toBeCloseTo(44.268, 3);
    expect(NITROGEN_SHARE.NO2).toBeCloseTo(0.304457, 6);
    expect(1 / NITROGEN_SHARE.NO2).toBeCloseTo(3.2845, 4);
  });
});

test('an amount compared with itself in another unit is equal, whatever its digits', () => {
  const units = ['g/L', 'mg/L', 'µg/L', 'ng/L', 'pg/L'] as const;
  const POWER = { 'g/L': 6, 'mg/L': 3, 'µg/L': 0, 'ng/L': -3, 'pg/L': -6 };
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 10 ** 9 }),
      fc.integer({ min: -12, max: 6 }),
      fc.constantFrom(...units),
      fc.constantFrom(...units),
      (digits, exponent, a, b) => {
        const inA = { text: `${digits}e${exponent}`, unit: unit(a) };
        const inB = { text: `${digits}e${exponent + POWER[a] - POWER[b]}`, unit: unit(b) };
        expect(compareAmounts(inA, inB)).toBe(0);
      },
    ),
  );
});
