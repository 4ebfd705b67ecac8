/**
 * Boxes of 60 points with 8 analytes: our layout against a greedy placement, each
 * box in turn on the first of its places that is free, nobody moving aside and no
 * shorter form. Before the times, what each of them placed.
 */
import { bench, describe } from 'vitest';
import { layoutBoxes, type BoxRequest, type Spot } from '../../src/map/scene/box-layout';
import { SCREEN_BOX, SHEET_BOX } from '../../src/map/scene/from-results';
import { sixtyPoints } from '../unit/map/sixty-points';
import { note } from './rounds';

const SHEETS = [
  { name: 'tabloid sheet', size: [1632, 1056] as Spot, type: SHEET_BOX },
  { name: 'map at 1280×800', size: [850, 680] as Spot, type: SCREEN_BOX },
];

/** Eight places around the point at three distances; the first that is free. */
function greedy(requests: readonly BoxRequest[], points: readonly Spot[], [W, H]: Spot): number {
  const boxes: (readonly [number, number, number, number])[] = [];
  for (const { at, sizes } of requests) {
    const [w, h] = sizes[0] ?? [0, 0];
    search: for (const away of [13, 60, 140])
      for (const [dx, dy] of [
        [1, 0],
        [1, 1],
        [0, 1],
        [-1, 1],
        [-1, 0],
        [-1, -1],
        [0, -1],
        [1, -1],
      ]) {
        const left = at[0] + (dx ?? 0) * away + (((dx ?? 0) - 1) * w) / 2;
        const top = at[1] + (dy ?? 0) * away + (((dy ?? 0) - 1) * h) / 2;
        const box = [left, top, left + w, top + h] as const;
        if (left < 0 || top < 0 || box[2] > W || box[3] > H) continue;
        if (
          points.some(
            ([x, y]) => x > left - 11 && x < box[2] + 11 && y > top - 11 && y < box[3] + 11,
          )
        )
          continue;
        if (boxes.some((b) => b[0] < box[2] && left < b[2] && b[1] < box[3] && top < b[3]))
          continue;
        boxes.push(box);
        break search;
      }
  }
  return boxes.length;
}

for (const { name, size, type } of SHEETS) {
  const { requests, points } = sixtyPoints(1, size, type);
  const window = { left: 0, top: 0, right: size[0], bottom: size[1] };
  const ours = layoutBoxes(requests, points, window);
  const whole = ours.placed.filter(({ form }) => form === 0).length;
  note(
    `Boxes placed, ${name}`,
    `ours ${ours.placed.length} of 60 (${whole} whole), greedy ${greedy(requests, points, size)}`,
  );
  describe(name, () => {
    bench('ours', () => void layoutBoxes(requests, points, window));
    bench('greedy', () => void greedy(requests, points, size));
  });
}
