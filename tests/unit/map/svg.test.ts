import { describe, expect, test } from 'vitest';
import { PALETTES } from '../../../src/map/look/look';
import type { Item, Scene } from '../../../src/map/scene/scene';
import { drawSvg, toPixels } from '../../../src/map/scene/svg';
import type { SvgNode } from '../../../src/map/scene/svg-parts';

const extent = { west: 1000, south: 2000, east: 1100, north: 2050 };
const draw = (scene: Scene, more = {}) =>
  drawSvg(scene, { extent, width: 200, height: 100, palette: PALETTES.bright, name: 't', ...more });

const all = (nodes: readonly SvgNode[]): SvgNode[] =>
  nodes.flatMap((node) => [node, ...all(node.children ?? [])]);
const wordsOf = (scene: Scene, more = {}) =>
  all(draw(scene, more).nodes).flatMap(({ text }) => (text ? [text] : []));

const well: Item = {
  kind: 'symbol',
  layer: 'points',
  who: 'MW-1',
  at: [1050, 2025],
  shape: 'monitoring well, installed',
  size: 18,
  colour: 'ink',
};
const name: Item = {
  kind: 'text',
  layer: 'point-labels',
  at: [1050, 2025],
  text: 'MW-1',
  sides: ['ne'],
  away: 12,
  size: 14,
  face: 'regular',
  colour: 'ink',
  priority: 1,
};

describe('from the grid to the sheet', () => {
  const px = toPixels({ extent, width: 200, height: 100 });

  test('north is up and east is to the right', () => {
    expect(px([1000, 2050])).toEqual([0, 0]);
    expect(px([1100, 2000])).toEqual([200, 100]);
  });

  test('a window of another shape shows the extent whole, in its middle, at one scale', () => {
    const wide = toPixels({ extent, width: 400, height: 100 });
    expect(wide([1050, 2025])).toEqual([200, 50]);
    expect(wide([1100, 2025])).toEqual([300, 50]);
  });
});

test('a click finds whose shape it is', () => {
  const [node] = draw([well]).nodes;
  expect(node?.attributes['data-who']).toBe('MW-1');
  expect(node?.attributes.transform).toMatch(/^translate\(100 50\)/);
});

test('words are words, in the family of the page', () => {
  const node = all(draw([name]).nodes).find(({ tag }) => tag === 'text');
  expect(wordsOf([name])).toEqual(['MW-1']);
  expect(node?.attributes['font-family']).toContain('Source Sans 3');
});

test('things lie over one another in the order of the layers, not in that of the list', () => {
  const building: Item = {
    kind: 'area',
    layer: 'buildings',
    polygons: [[[[1000, 2000], [1100, 2000], [1100, 2050], [1000, 2000]]]], // prettier-ignore
    fill: 'wash',
  };
  const [first, second] = draw([well, building]).nodes;
  expect(first?.tag).toBe('path');
  expect(second?.attributes['data-who']).toBe('MW-1');
});

test('an area keeps its holes', () => {
  const ring = (e: number, n: number, side: number) =>
    [[e, n], [e + side, n], [e + side, n + side], [e, n + side], [e, n]] as const; // prettier-ignore
  const scene: Scene = [
    { kind: 'area', layer: 'buildings', polygons: [[ring(1000, 2000, 50), ring(1010, 2010, 20)]], fill: 'wash' },
  ]; // prettier-ignore
  const [node] = draw(scene).nodes;
  expect(node?.attributes['fill-rule']).toBe('evenodd');
  expect(String(node?.attributes.d).match(/Z/g)).toHaveLength(2);
});

test('a hatch is defined once, under a name of this drawing alone', () => {
  const scene: Scene = [1, 2].map((n) => ({
    kind: 'area',
    layer: 'exclusions',
    polygons: [[[[1000, 2000], [1000 + n, 2000], [1000, 2001], [1000, 2000]]]], // prettier-ignore
    hatch: { pattern: 'crossed', colour: 'ink-soft' },
  }));
  const nodes = all(draw(scene).nodes);
  expect(
    nodes.filter(({ tag }) => tag === 'pattern').map(({ attributes }) => attributes.id),
  ).toEqual(['t-crossed-ink-soft']);
  const fills = nodes.filter(({ attributes }) => attributes.fill === 'url(#t-crossed-ink-soft)');
  expect(fills).toHaveLength(2);
});

test('the colours are those of the room', () => {
  const bright = JSON.stringify(draw([well]));
  const dark = JSON.stringify(draw([well], { palette: PALETTES.dark }));
  expect(bright).toContain(PALETTES.bright.ink);
  expect(dark).toContain(PALETTES.dark.ink);
  expect(dark).not.toContain(PALETTES.bright.ink);
});

test('on a wall words are larger and stay beside their points', () => {
  const size = (magnify: number) =>
    all(draw([name], { magnify }).nodes).find(({ tag }) => tag === 'text')?.attributes['font-size'];
  expect(size(2)).toBe(28);
});

test('a bar above the plane stands on its well, one below hangs from it', () => {
  const bar = (height: number): Item => ({
    kind: 'bar',
    layer: 'bars',
    at: [1050, 2025],
    height,
    width: 8,
    colour: 'ink-soft',
  });
  const [up, down] = draw([bar(20), bar(-10)]).nodes;
  expect(up?.attributes).toMatchObject({ x: 96, y: 30, height: 20 });
  expect(down?.attributes).toMatchObject({ x: 96, y: 50, height: 10 });
});

test('words keep off an arrow', () => {
  const arrow: Item = {
    kind: 'arrow',
    layer: 'arrow',
    tail: [1050, 2025],
    head: [1095, 2047],
    width: 9,
    colour: 'water',
  };
  const free = { ...name, sides: ['ne', 'sw'] as const };
  const x = (scene: Scene) =>
    Number(all(draw(scene).nodes).find(({ tag }) => tag === 'tspan')?.attributes.x);
  expect(x([free])).toBeGreaterThan(100);
  expect(x([free, arrow])).toBeLessThan(100);
});

test('nothing it writes is not a number', () => {
  const point: Item = { ...well, at: [NaN, NaN] };
  expect(JSON.stringify(draw([well, name]))).not.toMatch(/NaN|null|Infinity/);
  expect(JSON.stringify(draw([point]))).toMatch(/NaN/); // the check above can fail
});
