import { describe, expect, test } from 'vitest';
import {
  combinedFactor,
  gridAzimuth,
  toGround,
  trueAzimuth,
  type GridFacts,
} from '../../../src/domain/grid';
import { degrees, metres } from '../../../src/domain/units';

const facts = (factor: number | null): GridFacts => ({
  name: 'a grid',
  unit: 'us-ft',
  conformal: true,
  convergence: degrees(0),
  pointScale: factor,
  combinedFactor: factor,
  elevation: metres(0),
  caution: null,
});

describe('combined factor', () => {
  test('k 0.99990 at 450 ft is 0.999878477, and 1000.000 ft of grid is 1000.1215 ft of ground (computed independently)', () => {
    const factor = combinedFactor(0.9999, metres(450, 'ft'));
    expect(factor).toBeCloseTo(0.999878477, 9);
    expect(toGround(metres(1000), facts(factor))).toBeCloseTo(1000.1215, 4);
  });

  test('above the ellipsoid the ground is longer than the grid, below it shorter', () => {
    expect(toGround(metres(100), facts(combinedFactor(1, metres(500))))).toBeGreaterThan(100);
    expect(toGround(metres(100), facts(combinedFactor(1, metres(-80))))).toBeLessThan(100);
  });

  test('without a factor ground and grid are the same', () => {
    expect(toGround(metres(123.4), facts(null))).toBe(123.4);
  });
});

describe('north', () => {
  test('where grid north lies 1.5° east of true north, flow to grid 180° goes to true 181.5°', () => {
    expect(trueAzimuth(180, degrees(1.5))).toBe(181.5);
    expect(gridAzimuth(181.5, degrees(1.5))).toBe(180);
  });

  test('it wraps at north', () => {
    expect(trueAzimuth(359.5, degrees(1))).toBeCloseTo(0.5, 12);
    expect(trueAzimuth(0.5, degrees(-1))).toBeCloseTo(359.5, 12);
  });

  test('without a convergence there is no true azimuth', () => {
    expect(trueAzimuth(45, null)).toBeNull();
    expect(gridAzimuth(45, null)).toBeNull();
  });

  test('TxDOT’s worked line: geodetic 110°27′32.5″, convergence +3°01′39.5″, to its second term of 1.8″', () => {
    const dms = (d: number, m: number, s: number) => d + m / 60 + s / 3600;
    const line = gridAzimuth(dms(110, 27, 32.5), degrees(dms(3, 1, 39.5)))!;
    // The second term, −1.8″ over 19,000 ft at 391,000 ft from the axis, is what this leaves out.
    expect(line - 1.8 / 3600).toBeCloseTo(dms(107, 25, 51.2), 6);
  });
});
