import { intervalOf, type ScreenInterval } from '../water/screen-interval';
import type { Attempt, Screen, WaterLevel } from '../site/schema';
import type { Site } from '../site/site';
import { metres, type Litres, type Metres } from '../units';
import { isClosed, type FieldPoint } from './field-points';
import type { FieldRules } from './field-rules';
import { nextSuffix, volumeToFill } from './holes';
import { purgedOf, purgeOf, type Purged } from './purge';
import { timeToFill } from './water-readings';

/**
 * A line of the field sheet: a hole with what was done in it, or one still to
 * be pushed with what is planned. The sheet starts as the plan of the morning
 * and ends as the record of what was built, opened, sampled and filled.
 */
export type FieldLine = {
  readonly point: FieldPoint;
  readonly state: 'to push' | 'next try' | 'reached' | 'short' | 'dropped';
  /** Suffix of the hole: its own, or the one the next try gets; blank for the first. */
  readonly suffix: string;
  readonly hole: Attempt | null;
  /** Whether the hole stands on an earlier line: another screen was set in it. */
  readonly isHoleTold: boolean;
  readonly screen: Screen | null;
  /** As set; null where it is not, or cannot be reckoned. */
  readonly interval: ScreenInterval | null;
  /** The last depth read in it. */
  readonly water: WaterLevel | null;
  readonly filled: ReturnType<typeof timeToFill>;
  readonly purge: Purged | null;
  readonly samples: readonly string[];
  /** The hole's own volume to the depth it has, or is planned to have. */
  readonly sealing: Litres | null;
};

/** Lengths that come from sums of hundredths agree within this: 0.1 ft. */
const SLACK = metres(0.1, 'ft');

/** The hole a screen was set in: the shallowest that reaches its tip, else the last that reached. */
function holeOf(screen: Screen, reached: readonly Attempt[]): Attempt | null {
  const tip = screen.tip_depth?.value ?? 0;
  const deepEnough = reached
    .filter(({ depth }) => depth !== null && depth.value + SLACK >= tip)
    .toSorted((a, b) => (a.depth?.value ?? 0) - (b.depth?.value ?? 0));
  return deepEnough[0] ?? reached.at(-1) ?? null;
}

/** Every line of the field sheet, point by point in their order, hole by hole as they were made. */
export const fieldLines = (
  site: Site,
  points: readonly FieldPoint[],
  rules: FieldRules,
): readonly FieldLine[] => points.flatMap((point) => linesOf(site, point, rules));

function linesOf(site: Site, point: FieldPoint, rules: FieldRules): FieldLine[] {
  const { attempts, screens, isDropped } = point;
  const reached = attempts.filter(({ outcome }) => outcome === 'reached');
  const isSet = ({ tip_depth }: Screen) => tip_depth !== null;
  const set = screens.filter(isSet);
  const planned = screens.filter((screen) => !isSet(screen));
  const line = (
    state: FieldLine['state'],
    suffix: string,
    hole: Attempt | null,
    screen: Screen | null,
    isHoleTold = false,
  ): FieldLine => {
    const depth = hole ? hole.depth : (screen?.planned_tip_depth ?? null);
    return {
      point,
      state,
      suffix,
      hole,
      isHoleTold,
      screen,
      ...(screen && isSet(screen) ? doneIn(site, point, screen) : NOTHING_DONE),
      sealing: volumeToFill(rules.holeDiameter, depth?.value ?? null, 0),
    };
  };
  if (isDropped) return [line('dropped', '', null, planned[0] ?? null)];
  const holes = attempts.flatMap((hole): FieldLine[] => {
    const suffix = hole.suffix ?? '';
    if (hole.outcome !== 'reached') return [line('short', suffix, hole, null)];
    const within = set.filter((screen) => holeOf(screen, reached)?.row === hole.row);
    return within.length === 0
      ? [line('reached', suffix, hole, null)]
      : within.map((screen, i) => line('reached', suffix, hole, screen, i > 0));
  });
  if (attempts.length === 0)
    return (planned.length > 0 ? planned : [null]).map((screen, i) =>
      line('to push', '', null, screen, i > 0),
    );
  // Every hole ended short and the point is not given up: the plan stands for the next one.
  const isOver = reached.length > 0 || attempts.every(isClosed);
  return isOver
    ? holes
    : [...holes, line('next try', nextSuffix(attempts), null, planned[0] ?? null)];
}

const NOTHING_DONE = {
  interval: null,
  water: null,
  filled: { water: null, rest: null },
  purge: null,
  samples: [],
} as const;

function doneIn(site: Site, { location }: FieldPoint, screen: Screen) {
  const interval = intervalOf(screen, location);
  const readings = site.waterLevels
    .filter((reading) => reading.screen === screen.id)
    .toSorted((a, b) => (a.time ?? '').localeCompare(b.time ?? ''));
  const lastPurge = site.purgeReadings.findLast((reading) => reading.screen === screen.id);
  return {
    interval: interval.ok ? interval.value : null,
    water: readings.at(-1) ?? null,
    filled: timeToFill(screen.set_time, readings),
    purge: lastPurge ? purgedOf(purgeOf(site, screen.id, lastPurge.event)) : null,
    samples: [...site.samples.values()].flatMap((sample) =>
      sample.screen === screen.id ? [sample.id] : [],
    ),
  };
}

/** What is left to do, worked out anew after every hole. */
export type Left = {
  /** Holes still to be pushed, and their depth in all; those without a planned depth apart. */
  readonly holes: number;
  readonly depth: Metres;
  readonly withoutDepth: number;
  /** Holes that stand open, and what they and those to come hold; null where the diameter is not known. */
  readonly open: number;
  readonly sealing: Litres | null;
  /** Screens set or to be set that have no sample yet. */
  readonly samples: number;
};

export function leftOf(lines: readonly FieldLine[]): Left {
  const toPush = lines.filter(
    ({ state, isHoleTold }) => (state === 'to push' || state === 'next try') && !isHoleTold,
  );
  const depths = toPush.map(({ point, screen }) =>
    Math.max(
      ...(point.attempts.length === 0 ? point.screens : [screen]).map(
        (one) => one?.planned_tip_depth?.value ?? 0,
      ),
    ),
  );
  const open = lines.filter(({ hole, isHoleTold }) => hole && !isHoleTold && !isClosed(hole));
  const toSeal = [...open, ...toPush];
  const unsampled = lines.filter(
    ({ state, screen, samples, hole }) =>
      state === 'to push' ||
      state === 'next try' ||
      (state === 'reached' && screen !== null && samples.length === 0 && hole && !isClosed(hole)),
  );
  return {
    holes: toPush.length,
    depth: metres(depths.reduce((sum, one) => sum + one, 0)),
    withoutDepth: depths.filter((one) => one === 0).length,
    open: open.length,
    sealing: toSeal.some(({ sealing }) => sealing === null)
      ? null
      : (toSeal.reduce((sum, { sealing }) => sum + (sealing ?? 0), 0) as Litres),
    samples: unsampled.length,
  };
}
