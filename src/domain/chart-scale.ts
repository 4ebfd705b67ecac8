/** Scales of charts: round steps for an axis, and where a number falls on it. */

/** Round numbers from at or below the least to at or above the most, about so many. */
export function roundSteps(least: number, most: number, about: number): number[] {
  const span = most - least || Math.abs(most) || 1;
  const raw = span / Math.max(1, about);
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = ([1, 2, 5].find((times) => times * power >= raw * (1 - 1e-9)) ?? 10) * power;
  const from = Math.floor(least / step + 1e-9);
  const to = Math.ceil(most / step - 1e-9);
  return Array.from({ length: Math.max(2, to - from + 1) }, (_, i) => (from + i) * step);
}

/** From a number to a place along an axis, in a straight line. */
export function linear(from: readonly [number, number], to: readonly [number, number]) {
  const [a, b] = from;
  const [p, q] = to;
  return (x: number): number => (b === a ? (p + q) / 2 : p + ((x - a) / (b - a)) * (q - p));
}
