import type { SetPoint } from '../../../domain/layout/set-screens';
import { inUnits, metres, type LengthUnit, type Metres } from '../../../domain/units';

/** A point drawn on the common elevation axis; null where its ground is not known. */
export type ColumnLog = {
  readonly id: string;
  readonly ground: Metres;
  readonly estimated: boolean;
  readonly water: Metres | null;
  readonly screens: readonly { readonly top: Metres; readonly base: Metres }[];
  readonly tip: Metres;
};

/** The points whose ground is known, each with its screens as elevations. */
export function columnLogs(set: readonly SetPoint[]): ColumnLog[] {
  return set.flatMap(({ point, made }): ColumnLog[] => {
    if (!point.ground.ok) return [];
    const { elevation, how } = point.ground.value;
    const settings = made.settings.flatMap((s) => (s.ok ? [s.value] : []));
    const up = (depth: Metres) => metres(elevation.value - depth);
    return [
      {
        id: point.location.id,
        ground: elevation.value,
        estimated: how === 'estimated',
        water: point.water.ok ? point.water.value.value : null,
        screens: settings.map(({ interval: { depth } }) => ({
          top: up(depth.top.value),
          base: up(depth.base.value),
        })),
        tip: up(metres(Math.max(0, ...settings.map(({ tipDepth }) => tipDepth.value)))),
      },
    ];
  });
}

const STEPS = [0.5, 1, 2, 5, 10, 20, 50, 100];

/** Round elevations of an axis over all logs, in the unit, lowest first; none where there is no log. */
export function elevationTicks(logs: readonly ColumnLog[], unit: LengthUnit): readonly number[] {
  if (logs.length === 0) return [];
  const all = logs.flatMap(({ ground, tip, water }) => [ground, tip, water ?? ground]);
  const [low, high] = [Math.min(...all), Math.max(...all)].map((e) => inUnits(metres(e), unit));
  if (low === undefined || high === undefined) return [];
  const step = STEPS.find((s) => (high - low) / s <= 7) ?? 200;
  const first = Math.floor(low / step);
  const last = Math.max(first + 1, Math.ceil(high / step));
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
}
