import { describe, expect, test } from 'vitest';
import { turn } from '../../../src/domain/units';
import {
  azimuthOf,
  fitMany,
  gradientOf,
  outcomeOf,
  type WellSets,
} from '../../../src/domain/water/fit-many';
import { fitPlane, type HeadPoint } from '../../../src/domain/water/plane';
import { off, ORACLE, oracleWells, valueOf, well } from './wells';

const inColumns = (sets: readonly (readonly HeadPoint[])[], weighted: boolean): WellSets => {
  const wells = sets.flat();
  const column = (pick: (w: HeadPoint) => number) => Float64Array.from(wells, pick);
  const starts = [0];
  for (const set of sets) starts.push(starts.at(-1)! + set.length);
  return {
    starts: Uint32Array.from(starts),
    x: column((w) => w.x),
    y: column((w) => w.y),
    head: column((w) => w.head),
    weight: weighted ? column((w) => w.sigma ** -2) : null,
  };
};

describe('68 sets of wells in the same columns', () => {
  const unweighted = ORACLE.cases.filter(({ weights }) => !weights);
  const fitted = fitMany(
    inColumns(
      unweighted.map((set) => oracleWells(set)),
      false,
    ),
  );

  test.each(unweighted.map((set, k) => ({ ...set, k })))('$id, $kind', ({ k, expected }) => {
    if (expected.status === 'ok') {
      const most = expected.collinearity_ratio < 1e-5 ? 1e-6 : 1e-9;
      expect(outcomeOf(fitted, k)).toBe('plane');
      expect(off(gradientOf(fitted, k), expected.gradient)).toBeLessThan(most);
      expect(off(azimuthOf(fitted, k), expected.azimuth_deg!)).toBeLessThan(most);
      expect(off(fitted.sumOfSquares[k], expected.rss)).toBeLessThan(1e-9);
      expect(off(fitted.spreadRatio[k], expected.collinearity_ratio)).toBeLessThan(most);
      return;
    }
    const level = expected.status.startsWith('flat');
    expect(azimuthOf(fitted, k)).toBeNull();
    expect(gradientOf(fitted, k)).toBe(level ? 0 : null);
    expect(outcomeOf(fitted, k)).toBe(level ? 'level' : expected.n < 3 ? 'too-few' : 'in-a-line');
  });

  test('weights in proportion to 1/σ² give the weighted planes', () => {
    const weighted = ORACLE.cases.filter(({ weights }) => weights);
    const found = fitMany(
      inColumns(
        weighted.map((set) => oracleWells(set)),
        true,
      ),
    );
    weighted.forEach(({ expected }, k) => {
      expect(off(gradientOf(found, k), expected.gradient)).toBeLessThan(1e-9);
      expect(off(azimuthOf(found, k), expected.azimuth_deg!)).toBeLessThan(1e-9);
      expect(off(found.sumOfSquares[k], expected.rss)).toBeLessThan(1e-9);
    });
  });
});

test('ten thousand sets of eight wells: each as fitPlane has it', () => {
  const sets = Array.from({ length: 10_000 }, (_, k) =>
    Array.from({ length: 8 }, (_, i) => {
      const [u, v, h] = [17, 29, 41].map((m) => ((k * 7919 + i * 104_729) * m) % 1009);
      return well(`${i}`, 5e5 + u! / 5, 4e6 + v! / 5, 30 - u! / 5000 + h! / 1e5);
    }),
  );
  const fitted = fitMany(inColumns(sets, false));
  for (let k = 0; k < sets.length; k += 97) {
    const one = fitPlane(sets[k]!, { weighted: false });
    expect(outcomeOf(fitted, k) === 'plane').toBe(one.ok);
    if (!one.ok) continue;
    expect(off(gradientOf(fitted, k), one.value.gradient)).toBeLessThan(1e-12);
    expect(turn(azimuthOf(fitted, k)!, valueOf(one).azimuth!)).toBeCloseTo(0, 9);
  }
});

test('nothing asked, nothing answered', () => {
  const none = new Float64Array(0);
  const fitted = fitMany({
    starts: new Uint32Array(0),
    x: none,
    y: none,
    head: none,
    weight: null,
  });
  expect(fitted.outcome).toHaveLength(0);
  expect(azimuthOf(fitted, 0)).toBeNull();
  expect(gradientOf(fitted, 0)).toBeNull();
});
