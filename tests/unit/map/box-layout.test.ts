import { describe, expect, test } from 'vitest';
import {
  layoutBoxes,
  layoutSheetBoxes,
  POINT_ROOM,
  type Spot,
} from '../../../src/map/scene/box-layout';
import { SCREEN_BOX, SHEET_BOX } from '../../../src/map/scene/from-results';
import { sixtyPoints } from './sixty-points';

// An independent judge of a layout: sampled places along leaders, not the code's own geometry.
function faultsIn(layout: ReturnType<typeof layoutBoxes>, points: readonly Spot[]): string[] {
  const faults: string[] = [];
  const along = ([[ax, ay], [bx, by]]: (typeof layout.placed)[number]['leader']): Spot[] =>
    Array.from({ length: 101 }, (_, i) => [ax + ((bx - ax) * i) / 100, ay + ((by - ay) * i) / 100]);
  const inside = ([x, y]: Spot, b: { left: number; right: number; top: number; bottom: number }) =>
    x > b.left && x < b.right && y > b.top && y < b.bottom;
  const cross = (a: Spot, b: Spot, c: Spot, d: Spot) => {
    const det = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0]);
    if (Math.abs(det) < 1e-9) return false;
    const t = ((c[0] - a[0]) * (d[1] - c[1]) - (c[1] - a[1]) * (d[0] - c[0])) / det;
    const u = ((c[0] - a[0]) * (b[1] - a[1]) - (c[1] - a[1]) * (b[0] - a[0])) / det;
    return t >= 0 && t <= 1 && u >= 0 && u <= 1;
  };
  layout.placed.forEach((one, i) => {
    for (const point of points)
      if (inside(point, one.box)) faults.push(`${one.who} covers a point`);
    layout.placed.forEach((other, k) => {
      if (i === k) return;
      if (along(one.leader).some((at) => inside(at, other.box)))
        faults.push(`${other.who} covers the leader of ${one.who}`);
      if (k < i) return;
      const [a, b] = [one.box, other.box];
      if (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        faults.push(`${one.who} overlaps ${other.who}`);
      if (cross(...one.leader, ...other.leader))
        faults.push(`leaders of ${one.who} and ${other.who} cross`);
    });
  });
  return faults;
}

const windowOf = ([right, bottom]: Spot) => ({ left: 0, top: 0, right, bottom });

describe('boxes of 60 points with 8 analytes', () => {
  const TABLOID: Spot = [1632, 1056]; // 17 × 11 in at 96 px to the inch
  const SCREEN: Spot = [850, 680]; // the map's window at 1280 × 800

  test.each([1, 2, 3, 4, 5])(
    'all stand on a tabloid sheet, and none in another’s way (%i)',
    (seed) => {
      const { requests, points } = sixtyPoints(seed, TABLOID, SHEET_BOX);
      const layout = layoutBoxes(requests, points, windowOf(TABLOID));
      expect(layout.left).toEqual([]);
      expect(layout.placed.every(({ form }) => form === 0)).toBe(true);
      expect(faultsIn(layout, points)).toEqual([]);
    },
  );

  // What is left of a tabloid sheet beside its column of words, px at 96 to the inch.
  test.each([1, 2, 3])(
    'all stand whole on the map of a tabloid sheet beside its words (%i)',
    (seed) => {
      const size: Spot = [1277, 980];
      const { requests, points } = sixtyPoints(seed, size, SHEET_BOX);
      const window = { left: 16, top: 8, right: 1269, bottom: 936 };
      const layout = layoutSheetBoxes(requests, points, window);
      expect(layout.placed.map(({ who }) => who)).toEqual(requests.map(({ who }) => who));
      expect(layout.placed.every(({ form }) => form === 0)).toBe(true);
      expect(faultsIn(layout, points)).toEqual([]);
    },
    30_000,
  );

  test.each([1, 2, 3])(
    'on a small screen the worst come first and the rest are counted (%i)',
    (seed) => {
      const { requests, points } = sixtyPoints(seed, SCREEN, SCREEN_BOX);
      const layout = layoutBoxes(requests, points, windowOf(SCREEN));
      expect(layout.placed[0]?.who).toBe('DP-1');
      expect(layout.placed.length).toBeGreaterThan(20);
      expect(layout.placed.length + layout.left.length).toBe(60);
      expect(faultsIn(layout, points)).toEqual([]);
    },
  );

  test('a box put somewhere by hand stays there and the others keep clear of it', () => {
    const { requests, points } = sixtyPoints(7, TABLOID, SHEET_BOX);
    const before = layoutBoxes(requests, points, windowOf(TABLOID));
    const [x, y] = requests[0]!.at;
    const held = before.placed.at(-1)!.box;
    const moved = requests.map((one, i) =>
      i === 0 ? { ...one, held: [held.left - x, held.top - y] as const } : one,
    );
    const after = layoutBoxes(moved, points, windowOf(TABLOID));
    expect(after.placed[0]?.box.left).toBeCloseTo(held.left, 9);
    expect(faultsIn(after, points).filter((fault) => fault.includes('overlaps'))).toEqual([]);
  });

  test('no box comes nearer to a point than its mark is wide', () => {
    const { requests, points } = sixtyPoints(9, TABLOID, SHEET_BOX);
    for (const { box } of layoutBoxes(requests, points, windowOf(TABLOID)).placed)
      for (const [x, y] of points) {
        const dx = Math.max(box.left - x, 0, x - box.right);
        const dy = Math.max(box.top - y, 0, y - box.bottom);
        expect(Math.hypot(dx, dy)).toBeGreaterThanOrEqual(POINT_ROOM);
      }
  });
});
