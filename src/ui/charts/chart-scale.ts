/** Room for values on an axis: round ends and round steps between them. */
export type Axis = {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  /** Decimals that tell the ticks apart. */
  readonly decimals: number;
};

/** An axis that holds all values, with at most so many steps; of one value, a unit about it. */
export function axisOver(values: Iterable<number>, most = 6): Axis {
  let [least, greatest] = [Infinity, -Infinity];
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    least = Math.min(least, value);
    greatest = Math.max(greatest, value);
  }
  if (least > greatest) [least, greatest] = [0, 1];
  if (greatest - least <= 1e-12 * Math.max(1, Math.abs(greatest)))
    [least, greatest] = [least - 0.5, greatest + 0.5];
  const rough = (greatest - least) / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5, 10].find((n) => n * power >= rough * (1 - 1e-9)) ?? 10);
  const [first, last] = [Math.floor(least / step + 1e-9), Math.ceil(greatest / step - 1e-9)];
  return {
    low: first * step,
    high: last * step,
    ticks: Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step),
    decimals: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)),
  };
}
