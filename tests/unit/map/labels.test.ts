import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeLabels, sizeOf, type Box, type Label } from '../../../src/map/scene/place-labels';
import type { TextItem } from '../../../src/map/scene/scene';
import { LEVEL_SIDES, NAME_SIDES } from '../../../src/map/scene/sides';
import { textWidth } from '../../../src/map/scene/text-width';

const WINDOW: Box = { left: 0, top: 0, right: 1000, bottom: 800 };

const words = (more: Partial<TextItem> = {}): TextItem => ({
  kind: 'text',
  layer: 'point-labels',
  at: [0, 0],
  text: 'MW-1',
  sides: NAME_SIDES,
  away: 12,
  size: 14,
  face: 'regular',
  colour: 'ink',
  priority: 2,
  ...more,
});
const head = (more: Partial<TextItem> = {}) =>
  words({
    layer: 'posted-heads',
    text: '958.98',
    sides: LEVEL_SIDES,
    priority: 0,
    mark: 'level, well',
    ...more,
  });
const symbol = (x: number, y: number, half = 9): Box => ({
  left: x - half,
  right: x + half,
  top: y - half,
  bottom: y + half,
});
const meet = (a: Box, b: Box) =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

test('a well alone has its name above to the right and its head below to the right', () => {
  const placed = placeLabels(
    [words(), head()].map((item) => ({ item, x: 500, y: 400 })),
    [symbol(500, 400)],
    WINDOW,
  );
  expect(placed.map(({ item, side }) => [item.text, side])).toEqual([
    ['958.98', 'se'],
    ['MW-1', 'ne'],
  ]);
});

describe('where there is not room for all', () => {
  const placeAt: readonly Label[] = Array.from({ length: 6 }, (_, i) => [
    { item: words({ text: `DP-0${i}` }), x: 500 + i * 14, y: 400 },
    { item: head({ text: `95${i}.25` }), x: 500 + i * 14, y: 400 },
  ]).flat();

  test('heads are posted before names', () => {
    const shapes = placeAt.map(({ x, y }) => symbol(x, y));
    const placed = placeLabels(placeAt, shapes, WINDOW);
    const count = (layer: string) => placed.filter(({ item }) => item.layer === layer).length;
    expect(placed.length).toBeLessThan(placeAt.length);
    expect(count('posted-heads')).toBeGreaterThan(count('point-labels'));
  });

  test('what must always be drawn is drawn, even over something', () => {
    const [label] = placeLabels(
      [{ item: words({ always: true }), x: 500, y: 400 }],
      [{ left: 0, top: 0, right: 1000, bottom: 800 }],
      WINDOW,
    );
    expect(label?.side).toBe('ne');
  });
});

test('a head among symbols on every side stands further off rather than on one of them', () => {
  const around = [0, 45, 90, 135, 180, 225, 270, 315].map((azimuth) => {
    const turn = (azimuth * Math.PI) / 180;
    return symbol(500 + 21 * Math.sin(turn), 400 - 21 * Math.cos(turn));
  });
  const shapes = [symbol(500, 400), ...around];
  const placed = (further: readonly number[]) =>
    placeLabels([{ item: head({ always: true, further }), x: 500, y: 400 }], shapes, WINDOW)[0];
  const covers = (box: Box | undefined) => shapes.some((shape) => box && meet(shape, box));
  expect(covers(placed([])?.box)).toBe(true);
  expect(covers(placed([9, 18])?.box)).toBe(false);
  expect(placed([9, 18])?.side).toBe('se');
});

test('a name makes way for another that can stand nowhere else', () => {
  const [first, second] = [
    { item: words({ text: 'DP-01', sides: ['e', 'w'] }), x: 500, y: 400 },
    { item: words({ text: 'DP-02', sides: ['w'] }), x: 568, y: 400 },
  ];
  const shapes = [first, second].map(({ x, y }) => symbol(x, y));
  const sides = placeLabels([first, second], shapes, WINDOW).map(({ item, side }) => [
    item.text,
    side,
  ]);
  expect(sides).toEqual([
    ['DP-01', 'w'],
    ['DP-02', 'w'],
  ]);
});

test('near the edge of the window words stand inward, not cut', () => {
  const [label] = placeLabels([{ item: words(), x: 995, y: 400 }], [], WINDOW);
  expect(label?.side).toBe('nw');
});

test('no label covers a point or another label, however crowded', () => {
  const at = fc.tuple(fc.integer({ min: 0, max: 1000 }), fc.integer({ min: 0, max: 800 }));
  fc.assert(
    fc.property(fc.array(at, { minLength: 1, maxLength: 60 }), (places) => {
      const labels = places.flatMap(([x, y], i) => [
        { item: words({ text: `MW-${i}` }), x, y },
        { item: head({ text: `95${i}.98\n953.20` }), x, y },
      ]);
      const shapes = places.map(([x, y]) => symbol(x, y));
      const placed = placeLabels(labels, shapes, WINDOW);
      for (const [i, { box }] of placed.entries()) {
        expect(shapes.some((shape) => meet(shape, box))).toBe(false);
        expect(placed.slice(i + 1).some((other) => meet(other.box, box))).toBe(false);
      }
    }),
    { numRuns: 40 },
  );
});

describe('the size of words', () => {
  test('figures are all of one width, so heads stand in columns', () => {
    const width = textWidth('0', 100, 'semibold');
    for (const figure of '123456789') expect(textWidth(figure, 100, 'semibold')).toBe(width);
  });

  test('two lines are as wide as the wider and have the room of their mark', () => {
    const [one] = sizeOf(head({ text: '958.98' }));
    expect(sizeOf(head({ text: '958.98\ndry' }))[0]).toBe(one);
    const { mark: _, ...plain } = head();
    expect(one).toBeGreaterThan(sizeOf(plain)[0] + 10);
  });

  test('words turned upright are tall and narrow', () => {
    const [{ box } = { box: WINDOW }] = placeLabels(
      [{ item: words({ text: 'Water main', turned: 90, sides: ['centre'] }), x: 500, y: 400 }],
      [],
      WINDOW,
    );
    expect(box.bottom - box.top).toBeGreaterThan(4 * (box.right - box.left));
  });
});
