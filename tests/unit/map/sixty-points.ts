import { randomFrom } from '../../../src/domain/water/random';
import type { BoxRequest, Spot } from '../../../src/map/scene/box-layout';
import { boxSize, type BoxType } from '../../../src/map/scene/from-results';

/** Sixty points strewn over a sheet, no two marks touching, each with eight analytes. */
export function sixtyPoints(
  seed: number,
  [width, height]: Spot,
  type: BoxType,
): { requests: BoxRequest[]; points: Spot[] } {
  const random = randomFrom(seed);
  const points: Spot[] = [];
  while (points.length < 60) {
    const at: Spot = [(0.06 + 0.88 * random()) * width, (0.06 + 0.88 * random()) * height];
    if (points.every(([x, y]) => Math.hypot(x - at[0], y - at[1]) > 34)) points.push(at);
  }
  const names = [
    'Benzene 12 µg/L',
    'Toluene <1.0 µg/L U',
    'cis-1,2-DCE 140 µg/L J',
    'PCE 3.1 µg/L',
  ];
  const requests = points.map((at, i) => {
    const who = `DP-${i + 1}`;
    const lines = Array.from({ length: 8 }, (_, k) => ({
      kind: 'result' as const,
      verdict: 'exceeds' as const,
      text: names[(i + k) % names.length] ?? '',
    }));
    const sizes = [8, 4, 2, 1].map((most) =>
      boxSize({ who, lines: lines.slice(0, most), more: 8 - most }, type),
    );
    return { who, at, sizes };
  });
  return { requests, points };
}
