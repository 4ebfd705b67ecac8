import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { distanceTo } from '../../../src/domain/geometry/nearest';
import { longestStretch, upright } from '../../../src/map/scene/along';
import { ringAlong } from '../../../src/map/scene/offset';
import { azimuthTo, magnified, plainly, toward } from '../../../src/map/scene/plain';
import type { ArrowItem, FanItem, Place } from '../../../src/map/scene/scene';

const coordinate = fc.integer({ min: -5000, max: 5000 });
const place = fc.tuple(coordinate, coordinate);

describe('directions', () => {
  test.each([
    ['north', [0, 10], 0],
    ['east', [10, 0], 90],
    ['south', [0, -10], 180],
    ['west', [-10, 0], -90],
  ] as const)('to the %s', (_, to, azimuth) => {
    expect(azimuthTo([0, 0], to)).toBeCloseTo(azimuth, 12);
    const [e, n] = toward([100, 200], azimuth, 10);
    expect(e - 100).toBeCloseTo(to[0], 9);
    expect(n - 200).toBeCloseTo(to[1], 9);
  });
});

const arrow: ArrowItem = {
  kind: 'arrow',
  layer: 'arrow',
  who: 'flow',
  tail: [0, 0],
  head: [100, -100],
  width: 9,
  colour: 'water',
};

describe('an arrow', () => {
  const parts = plainly(arrow);

  test('is a shaft, a point turned the way it goes, and room that words keep off', () => {
    expect(parts).toMatchObject([
      { kind: 'line', layer: 'arrow', path: [arrow.tail, arrow.head], weight: 9 },
      { kind: 'line', layer: 'keep-clear' },
      { kind: 'symbol', shape: 'arrow head', at: arrow.head, turned: 135 },
    ]);
  });

  test('has the same parts each time, so that what has not changed is not drawn again', () => {
    expect(plainly(arrow)).toBe(parts);
  });
});

describe('a fan', () => {
  const fan: FanItem = {
    kind: 'fan',
    layer: 'fan',
    apex: [0, 0],
    azimuth: 90,
    halfAngle: 15,
    radius: 200,
    colour: 'water',
    fill: 'water-wash',
  };

  test('opens by as much to the left as to the right, and nowhere farther than its radius', () => {
    const [area] = plainly(fan);
    const ring = area?.kind === 'area' ? (area.polygons[0]?.[0] ?? []) : [];
    const azimuths = ring.slice(1, -1).map((at) => azimuthTo(fan.apex, at));
    expect(Math.min(...azimuths)).toBeCloseTo(75, 9);
    expect(Math.max(...azimuths)).toBeCloseTo(105, 9);
    for (const [e, n] of ring.slice(1, -1)) expect(Math.hypot(e, n)).toBeCloseTo(200, 9);
    expect(ring[0]).toEqual(ring.at(-1));
  });
});

test('a wall makes shapes, lines and words larger, and distances on the ground not', () => {
  const [shaft] = plainly(arrow);
  expect(shaft && magnified(shaft, 2)).toMatchObject({
    weight: 18,
    path: [arrow.tail, arrow.head],
  });
});

describe('the strip along a utility', () => {
  test('round a straight line its edge is everywhere at the distance asked', () => {
    const line: Place[] = [
      [0, 0],
      [100, 0],
    ];
    const ring = ringAlong(line, 7);
    for (const at of ring)
      expect(distanceTo({ kind: 'lines', lines: [line] }, at)).toBeCloseTo(7, 9);
    expect(ring[0]).toEqual(ring.at(-1));
  });

  test('round a bend too, be it to the left or to the right', () => {
    fc.assert(
      fc.property(fc.double({ min: -120, max: 120, noNaN: true }), (turn) => {
        const corner: Place = [200, 0];
        const line = [[0, 0] as const, corner, toward(corner, 90 + turn, 200)];
        for (const at of ringAlong(line, 5))
          expect(distanceTo({ kind: 'lines', lines: [line] }, at)).toBeCloseTo(5, 6);
      }),
    );
  });

  test('round a single place it is a circle, and round nothing it is nothing', () => {
    for (const [e, n] of ringAlong([[3, 4]], 2)) expect(Math.hypot(e - 3, n - 4)).toBeCloseTo(2, 9);
    expect(ringAlong([], 2)).toEqual([]);
  });

  test('a place written twice makes no difference', () => {
    expect(ringAlong([[0, 0], [0, 0], [9, 0]], 2)).toEqual(ringAlong([[0, 0], [9, 0]], 2)); // prettier-ignore
  });
});

describe('words along a line', () => {
  test('are never on their head', () => {
    fc.assert(
      fc.property(place, place, (from, to) => {
        const along = longestStretch([from, to]);
        if (from[0] === to[0] && from[1] === to[1]) expect(along).toBeNull();
        else expect(Math.abs(along?.turned ?? 999)).toBeLessThanOrEqual(90);
      }),
    );
  });

  test.each([
    [0, 0],
    [45, 45],
    [90, 90],
    [91, -89],
    [180, 0],
    [-90, 90],
    [270, 90],
  ])('%d° is read at %d°', (angle, read) => {
    expect(upright(angle)).toBeCloseTo(read, 9);
  });

  test('stand on the longest stretch, along it', () => {
    expect(longestStretch([[0, 0], [1, 0], [1, 50]])).toEqual({ at: [1, 25], turned: 90 }); // prettier-ignore
  });
});
