import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { evaluate } from '../../../src/domain/arithmetic';
import { plainNumber, printWork } from '../../../src/domain/print-work';
import { metres, type Metres } from '../../../src/domain/units';
import {
  equivalentFreshwaterHead,
  nestPairs,
  verticalGradient,
  type NestScreen,
  type VerticalGradient,
} from '../../../src/domain/water/vertical';
import type { Source, Worked } from '../../../src/domain/work';

const feet = (value: number, symbol = 'x'): Worked<Metres> => ({
  value: metres(value, 'ft'),
  work: {
    title: symbol,
    symbol,
    formula: symbol,
    terms: [],
    answer: { value: metres(value, 'ft'), dimension: 'length' },
    decimals: 2,
  },
});

const screen = (id: string, top: number, base: number, head: number, sigma = 0.01): NestScreen => ({
  id,
  top: feet(top, 'top'),
  base: feet(base, 'base'),
  head: feet(head, 'head'),
  sigma: metres(sigma, 'ft'),
});

const gradientOf = (one: NestScreen, other: NestScreen): VerticalGradient => {
  const answer = verticalGradient(one, other);
  if (!answer.ok) throw new Error(JSON.stringify(answer.problem));
  return answer.value;
};

describe('a nest: ground at 101.20 ft, middles 20 and 40 ft down, heads 91.85 and 91.47 ft', () => {
  // Computed independently.
  const shallow = screen('MW-4S', 83.2, 79.2, 91.85);
  const deep = screen('MW-4D', 63.2, 59.2, 91.47);

  test('the gradient is 0.019 down, ± 0.0007', () => {
    const { gradient, sigma, way } = gradientOf(shallow, deep);
    expect(gradient.value).toBeCloseTo(0.019, 12);
    expect(sigma.value).toBeCloseTo((Math.SQRT2 * 0.01) / 20, 12);
    expect(way).toBe('down');
  });

  test('whichever screen is named first', () => {
    expect(gradientOf(deep, shallow).gradient.value).toBe(gradientOf(shallow, deep).gradient.value);
    expect(gradientOf(deep, shallow).shallow.id).toBe('MW-4S');
  });

  test('with the heads the other way about, 0.019 up', () => {
    const { gradient, way } = gradientOf(
      screen('MW-4S', 83.2, 79.2, 91.47),
      screen('MW-4D', 63.2, 59.2, 91.85),
    );
    expect(gradient.value).toBeCloseTo(-0.019, 12);
    expect(way).toBe('up');
  });

  test('0.02 ft between heads good to 0.01 ft cannot be told; 0.03 ft can', () => {
    const at = (head: number) => gradientOf(screen('S', 83.2, 79.2, head), deep).way;
    // 1.96 · √2 · 0.01 = 0.0277 ft
    expect(at(91.49)).toBe('cannot be told at this precision');
    expect(at(91.5)).toBe('down');
    expect(at(91.47)).toBe('cannot be told at this precision');
    expect(at(91.44)).toBe('up');
  });

  test('the printed line gives the printed answer', () => {
    const { gradient, sigma } = gradientOf(shallow, deep);
    const printed = printWork(gradient.work, { vertical: 'ft', grid: 'us-ft' });
    expect(printed).toMatchObject({
      formula: 'i_v = (h1 - h2) / (z1 - z2)',
      substituted: '(91.85 - 91.47) / (81.20 - 61.20)',
      answer: '0.0190',
    });
    for (const work of [gradient.work, sigma.work]) {
      const line = printWork(work, { vertical: 'ft', grid: 'm' });
      const worked = evaluate(line.substituted.replaceAll('−', '-'), new Map());
      expect(worked).toBeCloseTo(plainNumber(line.answer), work.decimals);
    }
  });
});

describe('where the water stands in the shallow screen', () => {
  // Screen 92 to 82 ft, water at 90: the wetted middle is 86, not 87.
  const shallow = screen('S', 92, 82, 90);
  const deep = screen('D', 62, 60, 89);

  test('the middle is that between the water and the base', () => {
    const { gradient, straddling } = gradientOf(shallow, deep);
    expect(gradient.value).toBeCloseTo(1 / (86 - 61), 12);
    expect(straddling).toEqual(['S']);
    const z1 = gradient.work.terms.find(({ symbol }) => symbol === 'z1');
    expect(z1?.from).toMatchObject({ kind: 'work', work: { formula: '(head + base) / 2' } });
  });

  test('water just at the top of the screen changes nothing', () => {
    const { gradient, straddling } = gradientOf(screen('S', 90, 82, 90), deep);
    expect(gradient.value).toBeCloseTo(1 / (86 - 61), 12);
    expect(straddling).toEqual([]);
  });

  test('at or below the base the screen is dry, and there is no gradient', () => {
    expect(verticalGradient(screen('S', 92, 82, 82), deep)).toEqual({
      ok: false,
      problem: { kind: 'dry-screen', ids: ['S'] },
    });
  });
});

describe('no gradient, and why', () => {
  const one = screen('A', 80, 70, 90);
  test.each([
    ['no error stated', screen('B', 60, 50, 89, 0), { kind: 'no-error-stated', ids: ['B'] }],
    ['upside down', screen('B', 50, 60, 89), { kind: 'screen-upside-down', ids: ['B'] }],
    ['the same depth', screen('B', 78, 72, 89), { kind: 'same-depth', ids: ['A', 'B'] }],
  ])('%s', (_, other, problem) => {
    expect(verticalGradient(one, other)).toEqual({ ok: false, problem });
  });

  test('screens that share some depth are said to', () => {
    expect(gradientOf(one, screen('B', 72, 60, 89)).overlap).toBe(true);
    expect(gradientOf(one, screen('B', 70, 60, 89)).overlap).toBe(false);
  });
});

test('a nest of three: each screen with the next one down', () => {
  const [a, b, c] = [
    screen('A', 80, 70, 90),
    screen('B', 60, 50, 89),
    screen('C', 40, 30, 88),
  ] as const;
  const pairs = nestPairs([c, a, b]).map(([one, other]) => `${one.id}${other.id}`);
  expect(pairs).toEqual(['AB', 'BC']);
  expect(nestPairs([a])).toEqual([]);
});

test('raising the whole nest changes nothing; widening it makes the gradient smaller and surer', () => {
  const head = fc.double({ min: 80, max: 95, noNaN: true });
  const up = fc.double({ min: -500, max: 500, noNaN: true });
  fc.assert(
    fc.property(head, head, up, fc.integer({ min: 2, max: 9 }), (h1, h2, by, times) => {
      const at = (raised: number, apart: number) =>
        gradientOf(
          screen('S', 70 + raised, 60 + raised, h1 + raised),
          screen('D', 60 - apart + raised, 50 - apart + raised, h2 + raised),
        );
      const [here, raised, wider] = [at(0, 0), at(by, 0), at(0, 10 * (times - 1))];
      expect(raised.gradient.value).toBeCloseTo(here.gradient.value, 9);
      expect(wider.gradient.value * times).toBeCloseTo(here.gradient.value, 9);
      expect(wider.sigma.value * times).toBeCloseTo(here.sigma.value, 9);
    }),
  );
});

describe('equivalent freshwater head', () => {
  const from: Source = { kind: 'citation', text: 'test' };
  const metre = (value: number): Worked<Metres> => ({ ...feet(0), value: metres(value) });
  const head = (h: number, z: number, density: number) =>
    equivalentFreshwaterHead(
      metre(h),
      metre(z),
      { value: density, from },
      { value: 1, text: '1.000', from },
    );

  // Computed independently.
  test('10 m of head at −50 m in water 1.010 as dense: 10.60 m', () => {
    const fresh = head(10, -50, 1.01);
    expect(fresh?.value).toBeCloseTo(10.6, 12);
    const { work } = fresh!;
    const symbols = new Map(work.terms.map(({ symbol, value }) => [symbol, value]));
    expect(evaluate(work.formula, symbols)).toBeCloseTo(10.6, 12);
  });

  test('fresh water, or water just at the screen, needs no correction', () => {
    expect(head(10, -50, 1)?.value).toBe(10);
    expect(head(10, 10, 1.02)?.value).toBeCloseTo(10, 12);
  });

  test('without a density there is none', () => {
    expect(head(10, -50, 0)).toBeNull();
  });

  test('densities in kg/m³ give the same head: only their ratio counts', () => {
    const at = (density: number, freshwater: number) =>
      equivalentFreshwaterHead(
        metre(10),
        metre(-50),
        { value: density, from },
        { value: freshwater, from },
      );
    // h_f = 1025/998 · 10 + 27/998 · 50
    const fresh = at(1025, 998);
    expect(fresh?.value).toBeCloseTo((1025 * 10 + 27 * 50) / 998, 12);
    expect(fresh?.work.answer).toEqual({ value: fresh?.value, dimension: 'length' });
    expect(at(1025, 0)).toBeNull();
    expect(at(1025, -998)).toBeNull();
  });
});
