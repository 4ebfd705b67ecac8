import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { nestsApart } from '../../../src/map/scene/nests';
import type { Item, Place, SymbolItem, TextItem } from '../../../src/map/scene/scene';

const well = (who: string, at: Place, size = 16): SymbolItem => ({
  kind: 'symbol',
  layer: 'points',
  who,
  at,
  shape: 'piezometer, installed',
  size,
  colour: 'ink',
});
const verdict = (who: string, at: Place, down = 0): SymbolItem => ({
  ...well(who, at, 15),
  layer: 'verdicts',
  shape: 'verdict exceeds',
  offset: [18, down],
});
const head = (who: string, at: Place): TextItem => ({
  kind: 'text',
  layer: 'posted-heads',
  who,
  at,
  text: '958.45',
  sides: ['se'],
  away: 10,
  size: 14,
  face: 'semibold',
  colour: 'water',
  priority: 0,
});
const depthOf = (who: string) => ({ 'MW-1': 6, 'PZ-1D': 14 })[who] ?? 0;
const atOf = (scene: readonly Item[], who: string, layer: Item['layer']) =>
  scene.flatMap((item) =>
    'at' in item && item.who === who && item.layer === layer ? [item.at] : [],
  );

describe('two wells of a nest, three metres apart, where a metre is two px', () => {
  const scene = [
    well('PZ-1D', [0, 3]),
    well('MW-1', [0, 0]),
    head('MW-1', [0, 0]),
    verdict('PZ-1D', [0, 3]),
    well('MW-2', [60, 0]),
  ];
  const drawn = nestsApart(scene, 0.5, 1, depthOf);

  test('stand one under the other about their middle, the shallow one on top, clear of each other', () => {
    const [[e0, n0] = [0, 0]] = atOf(drawn, 'MW-1', 'points');
    const [[e1, n1] = [0, 0]] = atOf(drawn, 'PZ-1D', 'points');
    expect([e0, e1]).toEqual([0, 0]);
    expect((n0 + n1) / 2).toBeCloseTo(1.5, 9);
    // 16 px each and a gap: 19 px of half a metre.
    expect(n0 - n1).toBeCloseTo(9.5, 9);
  });

  test('take their levels and verdicts along', () => {
    expect(atOf(drawn, 'MW-1', 'posted-heads')).toEqual(atOf(drawn, 'MW-1', 'points'));
    expect(atOf(drawn, 'PZ-1D', 'verdicts')).toEqual(atOf(drawn, 'PZ-1D', 'points'));
  });

  test('have their levels and names in their own rows, never between the two', () => {
    const named = (who: string, sides: TextItem['sides']): TextItem => ({
      ...head(who, who === 'MW-1' ? [0, 0] : [0, 3]),
      layer: 'point-labels',
      sides,
    });
    const all: TextItem['sides'] = ['ne', 'nw', 'n', 'e', 'w', 'se', 'sw', 's'];
    const words = nestsApart([...scene, named('MW-1', all), named('PZ-1D', all)], 0.5, 1, depthOf);
    const sidesOf = (who: string, layer: Item['layer']) =>
      words.flatMap((item) =>
        item.kind === 'text' && item.who === who && item.layer === layer ? [item.sides] : [],
      );
    expect(sidesOf('MW-1', 'point-labels')).toEqual([['ne', 'nw', 'n', 'e', 'w']]);
    expect(sidesOf('PZ-1D', 'point-labels')).toEqual([['e', 'w', 'se', 'sw', 's']]);
    // A level that would only stand below stands beside.
    expect(sidesOf('MW-1', 'posted-heads')).toEqual([['e', 'w']]);
  });

  test('are tied by a line that the legend explains, and nothing else moves', () => {
    expect(drawn.filter(({ means }) => means === 'Wells of one nest, drawn apart')).toHaveLength(1);
    expect(drawn).toContain(scene[4]);
    expect(drawn).toHaveLength(scene.length + 1);
  });

  test('stand at their places where the map is near enough to show both', () => {
    expect(nestsApart(scene, 0.1, 1, depthOf)).toBe(scene);
    expect(nestsApart(scene, 0.1, 2, depthOf)).not.toBe(scene);
  });
});

test('a column of verdicts, one for each screen, has its room too', () => {
  const scene = [
    well('A', [0, 0]),
    ...[-17, 0, 17].map((down) => verdict('A', [0, 0], down)),
    well('B', [0, 1]),
  ];
  const drawn = nestsApart(scene, 1, 1, (who) => (who === 'A' ? 1 : 2));
  const [[, a] = [0, 0]] = atOf(drawn, 'A', 'points');
  const [[, b] = [0, 0]] = atOf(drawn, 'B', 'points');
  // Under the lowest verdict: 17 + 7.5 px, a gap, and half of the other symbol.
  expect(a - b).toBeCloseTo(17 + 7.5 + 3 + 8, 9);
});

test('points of a transect that are only crowded stay at their places', () => {
  const scene = [well('DP-1', [0, 0]), well('DP-2', [12, 0])];
  expect(nestsApart(scene, 2, 1, () => 0)).toBe(scene);
});

test('no two symbols of a nest overlap, however many wells it has and wherever they stand', () => {
  const place = fc.tuple(
    fc.double({ min: 0, max: 4, noNaN: true }),
    fc.double({ min: 0, max: 4, noNaN: true }),
  );
  fc.assert(
    fc.property(
      fc.array(place, { minLength: 2, maxLength: 6 }),
      fc.double({ min: 0.3, max: 2, noNaN: true }),
      (places, scale) => {
        const scene = places.map((at, i) => well(`W-${i}`, at));
        const drawn = nestsApart(scene, scale, 1, (who) => Number(who.slice(2)));
        const moved = drawn.filter((item, i) => item.kind === 'symbol' && item !== scene[i]);
        const ats = moved.flatMap((item) => ('at' in item ? [item.at] : []));
        // Of one nest if all moved: then each is clear of each.
        if (ats.length < places.length || drawn.length > scene.length + 1) return;
        ats.forEach(([, a], i) =>
          ats
            .slice(i + 1)
            .forEach(([, b]) => expect(Math.abs(a - b) / scale).toBeGreaterThanOrEqual(19 - 1e-6)),
        );
      },
    ),
  );
});
