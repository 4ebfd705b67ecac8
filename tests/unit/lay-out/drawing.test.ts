import { describe, expect, test } from 'vitest';
import {
  freeId,
  readDistances,
  readPlaces,
  shapeOf,
  snapOf,
} from '../../../src/domain/layout/drawing';
import { areaWords, blockWords, shiftWords } from '../../../src/domain/layout/layout-words';
import { azimuth } from '../../../src/domain/units';
import { shape } from '../layout/ground';

describe('drawing on the map', () => {
  test('a place within reach of a corner goes to it, though an edge is nearer', () => {
    const square = shape('POLYGON ((0 0, 10 0, 10 10, 0 10, 0 0))');
    expect(snapOf([9.5, 0.2], [square], 1)).toEqual({ at: [10, 0], to: 'corner' });
    expect(snapOf([5, 0.4], [square], 1)).toEqual({ at: [5, 0], to: 'edge' });
    expect(snapOf([5, 2], [square], 1)).toBeNull();
    expect(snapOf([5, 2], [], 1)).toBeNull();
  });

  test('an outline that crosses itself, lies in one line or has too few corners is none yet', () => {
    const problem = (corners: readonly (readonly [number, number])[]) => {
      const made = shapeOf('area', corners);
      return made.ok ? null : made.problem.kind;
    };
    expect(problem([[0, 0]])).toBe('too-few');
    expect(
      problem([
        [0, 0],
        [10, 10],
        [10, 0],
        [0, 10],
      ]),
    ).toBe('crosses-itself');
    expect(
      problem([
        [0, 0],
        [5, 5],
        [10, 10],
      ]),
    ).not.toBeNull();
    expect(
      problem([
        [0, 0],
        [10, 0],
        [10, 10],
      ]),
    ).toBeNull();
  });

  test('places are typed with commas, tabs or blanks, and a line that is none is named', () => {
    expect(readPlaces('488500.5, 1822000\n\n488900\t1822000\n1 2')).toEqual({
      ok: true,
      value: [
        [488500.5, 1822000],
        [488900, 1822000],
        [1, 2],
      ],
    });
    expect(readPlaces('1, 2\n1,822,000 488,500')).toEqual({
      ok: false,
      problem: { line: 2, found: '1,822,000 488,500' },
    });
    expect(readPlaces('1, 2, 3').ok).toBe(false);
    expect(readPlaces('0x10, 2').ok).toBe(false);
  });

  test('distances are above nothing or none at all', () => {
    expect(readDistances('25, 50;100')).toEqual([25, 50, 100]);
    expect(readDistances('25, -50')).toBeNull();
    expect(readDistances('25, x')).toBeNull();
    expect(readDistances('')).toEqual([]);
  });

  test('a new row takes the first free name', () => {
    expect(freeId('F', ['F-1', 'F-3'])).toBe('F-2');
  });
});

describe('what is said of a layout', () => {
  test('areas are told in acres or hectares beside the square unit: an acre is 43,560 square feet', () => {
    expect(areaWords(43_560 * 2, 'ft')).toBe('87120 ft² (2.00 acres)');
    expect(areaWords(25_000, 'm')).toBe('25000 m² (2.50 ha)');
  });

  test('a block and a shift say how far, which way and from where, with units', () => {
    const of = { id: 'U-1', kind: 'utility', name: 'Gas main' } as const;
    expect(blockWords({ kind: 'within-buffer', of, distance: 3.24, buffer: 5 }, 'us-ft')).toBe(
      '3.2 ftUS from utility Gas main, which asks 5.0 ftUS',
    );
    expect(
      shiftWords({ from: [10, 20], to: [17, 20], distance: 7, azimuth: azimuth(90) }, 'ft'),
    ).toBe('Shifted 7.0 ft toward 090° from E 10.00, N 20.00');
  });
});
