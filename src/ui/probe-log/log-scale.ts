import { inUnits, metres, type LengthUnit, type Metres } from '../../domain/units';

/** A round step, 1, 2 or 5 of a power of ten, that gives at most so many steps over a span. */
function roundStep(span: number, most: number): number {
  const rough = span / most;
  const power = 10 ** Math.floor(Math.log10(rough));
  const times = [1, 2, 5, 10].find((n) => n * power >= rough * (1 - 1e-9)) ?? 10;
  return times * power;
}

export type Tick = { readonly depth: Metres; readonly label: string };

/** Depths at round numbers of the unit, from ground down to the deepest. */
export function depthTicks(deepest: Metres, unit: LengthUnit, most = 8): Tick[] {
  const bottom = inUnits(deepest, unit);
  const step = roundStep(bottom, most);
  const count = Math.floor(bottom / step + 1e-9);
  return Array.from({ length: count + 1 }, (_, i) => ({
    depth: metres(i * step, unit),
    label: String(Number((i * step).toFixed(6))),
  }));
}
