import { describe, expect, test } from 'vitest';
import { PALETTES } from '../../../src/map/look/look';
import { plainly, sameItems } from '../../../src/map/scene/plain';
import type { Item } from '../../../src/map/scene/scene';
import { painted } from '../../../src/map/screen/features';
import { sublayer, sublayerAbove, SUBLAYERS } from '../../../src/map/screen/sublayers';

const toLngLat = (e: number, n: number) => [e / 1e5, n / 1e5] as const;
const options = { toLngLat, theme: 'bright', magnify: 1, enlarged: 1 } as const;
const paint = (items: readonly Item[], more = {}) =>
  painted(
    items.flatMap((item) => [...plainly(item)]),
    { ...options, ...more },
  );

const well: Item = {
  kind: 'symbol',
  layer: 'points',
  who: 'MW-1',
  at: [100, 200],
  shape: 'monitoring well, installed',
  size: 18,
  colour: 'ink',
};
const words: Item = {
  kind: 'text',
  layer: 'posted-heads',
  at: [100, 200],
  text: '958.98\ndry',
  sides: ['se', 'nw'],
  away: 12,
  size: 14,
  face: 'semibold',
  colour: 'water',
  priority: 0,
  mark: 'level, well',
};

describe('items as map features', () => {
  test('carry their look and whom they stand for', () => {
    const [feature] = paint([well]).features.features;
    expect(feature?.geometry).toEqual({ type: 'Point', coordinates: [0.001, 0.002] });
    expect(feature?.properties).toMatchObject({ part: 'icon', who: 'MW-1' });
  });

  test('name each picture once, by theme', () => {
    const bright = paint([well, { ...well, at: [1, 1] }]).pictures;
    const dark = paint([well], { theme: 'dark' }).pictures;
    expect(bright).toHaveLength(1);
    expect(dark).not.toEqual(bright);
  });

  test('words say on which sides they may stand, and hold each line for its mark', () => {
    const [feature] = paint([words]).features.features;
    expect(feature?.properties).toMatchObject({
      part: 'words',
      colour: PALETTES.bright.water,
      lines: 2,
      line0: '958.98',
      line1: 'dry',
    });
    const { lists } = paint([words]);
    const stands = lists.stands.get(String(feature?.properties.stands)) as [
      string,
      [number, number],
      string,
      [number, number],
    ];
    expect([stands[0], stands[2]]).toEqual(['top-left', 'bottom-right']);
    expect(stands[1][0]).toBeGreaterThan(0);
    expect(stands[3][0]).toBeLessThan(0);
  });

  test('paper is left free along a cased line, under it', () => {
    const arrow: Item = {
      kind: 'arrow',
      layer: 'arrow',
      tail: [0, 0],
      head: [10, 0],
      width: 9,
      colour: 'water',
    };
    const parts = paint([arrow]).features.features.map(({ properties }) => properties);
    expect(parts.map(({ part }) => part)).toEqual(['line', 'line', 'clear', 'icon']);
    expect(parts[0]).toMatchObject({ colour: PALETTES.bright.paper, weight: 13 });
    expect(parts[1]).toMatchObject({ colour: PALETTES.bright.water, weight: 9 });
  });

  test('a residual of nothing draws no bar', () => {
    const bar: Item = {
      kind: 'bar',
      layer: 'bars',
      at: [0, 0],
      height: 0.2,
      width: 7,
      colour: 'ink',
    };
    expect(paint([bar]).features.features).toEqual([]);
  });
});

const none = { offset: new Map(), stands: new Map() };

describe('the order of layers', () => {
  test('points lie over heads, heads over names, names over buildings', () => {
    const at = (id: (typeof SUBLAYERS)[number]) => SUBLAYERS.indexOf(id);
    expect(at('points/icon')).toBeGreaterThan(at('posted-heads/words'));
    expect(at('posted-heads/words')).toBeGreaterThan(at('point-labels/words'));
    expect(at('point-labels/words')).toBeGreaterThan(at('buildings/fill'));
    expect(at('arrow/line')).toBeGreaterThan(at('fan/fill'));
  });

  test('a layer goes under the lowest of those above it', () => {
    const there = new Set(['points/icon', 'posted-heads/words', 'buildings/fill']);
    expect(sublayerAbove('point-labels/words', (id) => there.has(id))).toBe('posted-heads/words');
    expect(sublayerAbove('verdicts/icon', (id) => there.has(id))).toBeUndefined();
  });

  test('points are drawn whatever is there, and words give way', () => {
    const layout = (id: 'points' | 'point-labels', part: 'icon' | 'words') =>
      (sublayer(id, part, none) as { layout?: Record<string, unknown> }).layout;
    expect(layout('points', 'icon')?.['icon-allow-overlap']).toBe(true);
    expect(layout('points', 'icon')?.['icon-ignore-placement']).toBe(false);
    expect(layout('point-labels', 'words')?.['text-allow-overlap']).toBe(false);
  });
});

test('a list of the same items is the same list, and of other items is not', () => {
  const [one, other] = [plainly(well), plainly({ ...well })];
  expect(sameItems(one, plainly(well))).toBe(true);
  expect(sameItems(one, other)).toBe(false);
  expect(sameItems(one, [])).toBe(false);
});
