import { describe, expect, test } from 'vitest';
import { whoAt } from '../../../src/map/scene/hit';
import type { Item, Place, Scene } from '../../../src/map/scene/scene';

/** 0.5 m to a px. */
const SCALE = 0.5;

const point = (who: string, at: Place, more: Partial<Item> = {}): Item =>
  ({
    kind: 'symbol',
    layer: 'points',
    who,
    at,
    shape: 'monitoring well, installed',
    size: 18,
    colour: 'ink',
    ...more,
  }) as Item;
const building: Item = {
  kind: 'area',
  layer: 'buildings',
  who: 'BL-1',
  polygons: [[[[0, 0], [100, 0], [100, 100], [0, 100], [0, 0]]]], // prettier-ignore
  fill: 'wash',
};
const main: Item = {
  kind: 'line',
  layer: 'utilities',
  who: 'U-1',
  path: [[50, -100], [50, 200]], // prettier-ignore
  weight: 1,
  colour: 'ink-soft',
};
const scene: Scene = [building, main, point('MW-1', [20, 20])];

describe('a press means', () => {
  test('the point under it, or a fingertip from its edge, and no farther', () => {
    expect(whoAt(scene, [20, 20], SCALE)).toBe('MW-1');
    expect(whoAt([point('MW-1', [20, 20])], [20 + 19 * SCALE, 20], SCALE)).toBe('MW-1');
    expect(whoAt([point('MW-1', [20, 20])], [20 + 21 * SCALE, 20], SCALE)).toBeNull();
  });

  test('of two points the one it is nearer to', () => {
    const two = [point('a', [0, 0]), point('b', [6, 0])];
    expect(whoAt(two, [2, 0], SCALE)).toBe('a');
    expect(whoAt(two, [4, 0], SCALE)).toBe('b');
  });

  test('a mark where it stands beside its point', () => {
    const mark = point('DP-5', [0, 0], { size: 14, offset: [18, -17] });
    expect(whoAt([mark], [18 * SCALE, 17 * SCALE], SCALE)).toBe('DP-5');
    expect(whoAt([mark], [18 * SCALE, -17 * SCALE], SCALE)).toBeNull();
  });

  test('a line before the area it crosses, and the area elsewhere', () => {
    expect(whoAt(scene, [50, 80], SCALE)).toBe('U-1');
    expect(whoAt(scene, [80, 80], SCALE)).toBe('BL-1');
  });

  test('the arrow along its shaft', () => {
    const arrow: Item = {
      kind: 'arrow',
      layer: 'arrow',
      who: 'flow',
      tail: [0, 0],
      head: [100, 100],
      width: 9,
      colour: 'water',
    };
    expect(whoAt([building, arrow], [52, 50], SCALE)).toBe('flow');
  });

  test('nothing on bare paper, on things without a name, and in an empty scene', () => {
    expect(whoAt(scene, [300, 300], SCALE)).toBeNull();
    const { who: _, ...nameless } = building;
    expect(whoAt([nameless as Item], [80, 80], SCALE)).toBeNull();
    expect(whoAt([], [0, 0], SCALE)).toBeNull();
  });

  test('on a wall, the larger shape', () => {
    const [well] = [point('MW-1', [0, 0])];
    const at: Place = [25 * SCALE, 0];
    expect(whoAt([well], at, SCALE)).toBeNull();
    expect(whoAt([well], at, SCALE, 2)).toBe('MW-1');
  });
});
