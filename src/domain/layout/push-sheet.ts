import type { Screen } from '../site/schema';
import type { Site } from '../site/site';
import { inUnits, metres, type LengthUnit, type Litres, type Metres } from '../units';
import type { Result } from '../result';
import { fixed } from '../show';
import { clearedOn, holdsOn, type Cleared } from './cleared';
import type { PlannedPoint } from './field-plan';
import { plannedInterval } from './driven';
import { sourcesAt } from './clean-to-dirty';
import type { Interval, IntervalProblem } from './interval';
import { nameBy, readPattern } from './numbering';
import { rodsFor, type RodString } from './rods';
import { oneInEach } from './sample-counts';
import { cylinder, isPastSuction, minimumPurge, sealingVolume } from './volumes';

/** What the crew brings, as chosen for the plan. */
export type Equipment = {
  readonly rodLength: Metres;
  /** Sampler below the lowest rod, from its tip. */
  readonly toolLength: Metres;
  /** The drive head stands at least this far above ground. */
  readonly leastAbove: Metres;
  /** Inside diameters. */
  readonly tubing: Metres;
  readonly screen: Metres;
  /** Tubing above ground, to the pump. */
  readonly tubingAbove: Metres;
  readonly hole: Metres;
  /** Share sealed in beyond the hole's own volume: 0.2 for a fifth. */
  readonly sealingExtra: number;
  /** Columns of water purged at least. */
  readonly purgeTimes: number;
  /** Name pattern of samples, with [location], [top], [base] and [day]. */
  readonly samples: string;
  readonly containers: string;
  /** One duplicate for so many samples; null for none. */
  readonly duplicateEach: number | null;
  /** One matrix spike and its duplicate for so many samples; null for none. */
  readonly spikeEach: number | null;
  /** Day of the sheet, 2026-05-31. */
  readonly day: string;
};

/** A line of the push sheet: one planned screen, or a point with none yet. */
export type PushRow = {
  readonly point: PlannedPoint;
  readonly screen: Screen | null;
  readonly cleared: Cleared | null;
  /** Source areas it is pushed through. */
  readonly through: readonly string[];
  /** Why no screen is set, or none is known of; blank where one is. */
  readonly noScreen: string;
  readonly tip: Metres | null;
  /** The rods are drawn back this far, once at depth. */
  readonly pullBack: Metres | null;
  readonly interval: Result<Interval, IntervalProblem> | null;
  readonly depthToWater: Metres | null;
  readonly pastSuction: boolean;
  readonly rods: RodString | null;
  readonly tubing: { readonly length: Metres; readonly volume: Litres } | null;
  readonly screenVolume: Litres | null;
  readonly purge: Litres | null;
  readonly sample: string | null;
  /** A field duplicate is taken here too. */
  readonly duplicate: boolean;
  /** Its bottles are filled twice more, for a matrix spike and its duplicate. */
  readonly spike: boolean;
  readonly sealing: Litres | null;
};

export const SAMPLE_WORDS = ['location', 'top', 'base', 'day'] as const;

/**
 * The push sheet, in the order of the points: one line a planned screen, with
 * what to bring and what to do. Duplicates and spikes fall on the first sample
 * of each so many, so that a round cut short still has one.
 */
export function pushSheet(
  site: Site,
  points: readonly PlannedPoint[],
  equipment: Equipment,
): PushRow[] {
  let samples = 0;
  return points.flatMap((point) => {
    const cleared = clearedOn(site, point.location.id);
    const screens = point.screens.length > 0 ? point.screens : [null];
    return screens.map((screen) => {
      const line = rowOf(site, point, screen, cleared, equipment);
      if (line.sample === null) return line;
      samples += 1;
      const isDue = (each: number | null) =>
        oneInEach(samples, each) > oneInEach(samples - 1, each);
      const { duplicateEach, spikeEach } = equipment;
      return { ...line, duplicate: isDue(duplicateEach), spike: isDue(spikeEach) };
    });
  });
}

function rowOf(
  site: Site,
  point: PlannedPoint,
  screen: Screen | null,
  cleared: Cleared | null,
  equipment: Equipment,
): PushRow {
  const tipDepth = screen?.planned_tip_depth ?? null;
  const exposed = screen?.planned_exposed_length ?? null;
  const depthToWater = point.waterDepth?.value ?? null;
  const base = {
    point,
    screen,
    cleared,
    through: sourcesAt(site.features, point.at).map(({ id, name }) => name ?? id),
    noScreen: screen ? '' : noScreenWords(point),
    depthToWater,
    pastSuction: depthToWater !== null && isPastSuction(depthToWater),
    duplicate: false,
    spike: false,
  };
  if (!screen || !tipDepth) return { ...base, ...NOTHING };

  const interval = plannedInterval(screen, point.ground.ok ? point.ground.value.elevation : null);
  const string = rodsFor({
    tipDepth: tipDepth.value,
    toolLength: equipment.toolLength,
    rodLength: equipment.rodLength,
    retraction: exposed?.value ?? metres(0),
    leastAbove: equipment.leastAbove,
  });
  const baseDepth = interval.ok ? interval.value.depth.base.value : tipDepth.value;
  const length = metres(baseDepth + equipment.tubingAbove);
  const column = depthToWater === null ? null : metres(baseDepth - depthToWater);
  const purge = minimumPurge(
    { kind: 'volumes', times: equipment.purgeTimes },
    {
      casing: equipment.screen,
      column,
      tubing: equipment.tubing,
      tubingLength: length,
      cell: 0 as Litres,
    },
  );
  return {
    ...base,
    tip: tipDepth.value,
    pullBack: exposed?.value ?? null,
    interval,
    rods: string.ok ? string.value : null,
    tubing: { length, volume: cylinder(equipment.tubing, length) },
    screenVolume: exposed ? cylinder(equipment.screen, exposed.value) : null,
    purge: purge.ok ? purge.value : null,
    sample: sampleName(point, interval, equipment, site.settings.verticalUnit),
    sealing: sealingVolume(equipment.hole, tipDepth.value, equipment.sealingExtra),
  };
}

/** Why a point has no screen: what its rules would need, where that is not known. */
const noScreenWords = ({ ground, water, waterDepth }: PlannedPoint): string =>
  waterDepth
    ? 'set it under Screens'
    : ([ground, water].flatMap((known) => (known.ok ? [] : [known.problem]))[0] ?? '');

const NOTHING = {
  tip: null,
  pullBack: null,
  interval: null,
  rods: null,
  tubing: null,
  screenVolume: null,
  purge: null,
  sample: null,
  sealing: null,
} as const;

function sampleName(
  { location }: PlannedPoint,
  interval: Result<Interval, IntervalProblem>,
  { samples, day }: Equipment,
  unit: LengthUnit,
): string | null {
  const pattern = readPattern(samples, SAMPLE_WORDS);
  if (!pattern.ok || !interval.ok) return null;
  const whole = (depth: Metres) => fixed(Math.round(inUnits(depth, unit)), 0);
  const { top, base } = interval.value.depth;
  return nameBy(pattern.value, {
    location: location.id,
    top: whole(top.value),
    base: whole(base.value),
    day: day.replaceAll('-', ''),
  });
}

/** Points of the sheet, not its lines, that are not cleared on a day. */
export const notClearedOn = (rows: readonly PushRow[], day: string): number =>
  new Set(
    rows.filter(({ cleared }) => !holdsOn(cleared, day)).map(({ point }) => point.location.id),
  ).size;
