import { groupBy } from '../group';
import type { Metres } from '../units';
import { isOver, type Verdict } from './verdict';
import { worstOf } from './worst';

/**
 * Whether what exceeds its level is delineated: toward each side of every
 * exceeding point, and below it, is there a point that does not exceed, one
 * that cannot tell, or nothing within a stated distance? The rule is common
 * practice, no source; a side is a quarter of the compass, ±45° about its way.
 */

/** What one screen says of one analyte. */
export type ScreenVerdict = {
  readonly location: string;
  readonly screen: string;
  /** Metres in the grid. */
  readonly easting: number;
  readonly northing: number;
  /** Tip depth below ground, metres, positive down; null where it is not known. */
  readonly depth: number | null;
  readonly zone: string | null;
  readonly verdict: Verdict;
};

export const FLOW_SIDES = [
  'down-gradient',
  'side-gradient, left',
  'up-gradient',
  'side-gradient, right',
] as const;
export const COMPASS_SIDES = ['north', 'west', 'south', 'east'] as const;
export type Side = (typeof FLOW_SIDES)[number] | (typeof COMPASS_SIDES)[number] | 'below';

export type SideAnswer = {
  /** The exceeding location, and its zone. */
  readonly location: string;
  readonly zone: string | null;
  readonly side: Side;
  readonly status:
    | 'delineated'
    /** Another exceeding point lies that way and answers for the side. */
    | 'goes on'
    | 'limit exceeds level'
    /** Points there have no usable result: rejected, not comparable, none. */
    | 'no usable result'
    | 'nothing there'
    | 'depth not known';
  /** The screen that decides; null where there is none. */
  readonly by: ScreenVerdict | null;
  /** Ground metres to it: level, or downward for `below`. */
  readonly distance: Metres | null;
  /** Where the next push would close the side; null where it is closed or a new sample would do. */
  readonly next: {
    readonly easting: number;
    readonly northing: number;
    /** For `below`: tip depth in metres; else null. */
    readonly depth: Metres | null;
  } | null;
};

export type Delineation = {
  /** Exceeding locations, by zone. */
  readonly exceeding: number;
  readonly answers: readonly SideAnswer[];
  /** Why the sides are those of the compass in some zone; null where flow names them all. */
  readonly unresolved: string | null;
};

/** The way the water goes in a zone: degrees clockwise from grid north, or why it is not known. */
export type Way =
  | { readonly azimuth: number; readonly reason: null }
  | { readonly azimuth: null; readonly reason: string };

export type Reach = {
  /** How far a point may lie and still close a side, ground metres. */
  readonly within: number;
  /** How far below, metres. */
  readonly below: number;
  /** Grid metres in a ground metre. */
  readonly combinedFactor: number;
};

/** Locations this near stand for one place when looking below: a nest, ground metres. */
const NEST = 3;

const known = (verdict: Verdict) =>
  isOver(verdict) || verdict === 'does-not-exceed' || verdict === 'not-detected';

/** Whether a side still has to be closed. */
export const isOpen = ({ status }: SideAnswer): boolean =>
  status !== 'delineated' && status !== 'goes on';

/** One analyte in one event. */
export function delineate(
  screens: readonly ScreenVerdict[],
  wayIn: (zone: string | null) => Way,
  reach: Reach,
): Delineation {
  const places = [...groupBy(screens, ({ location, zone }) => `${location}|${zone}`).values()]
    .map(worstScreen)
    .flatMap((one) => one ?? []);
  const hot = places.filter(({ verdict }) => isOver(verdict));
  const reasons = new Set<string>();
  const level = hot.flatMap((point) => {
    const way = wayIn(point.zone);
    if (way.reason !== null) reasons.add(way.reason);
    const names: readonly Side[] = way.azimuth === null ? COMPASS_SIDES : FLOW_SIDES;
    const near = places.flatMap((one): Around[] => {
      if (one.zone !== point.zone || one.location === point.location) return [];
      const distance = apart(point, one, reach);
      return distance <= reach.within ? [{ one, distance, azimuth: wayTo(point, one) }] : [];
    });
    // Both lists of names turn to the left by a quarter at a time.
    return names.map((side, turn) =>
      answerToward(point, near, side, (way.azimuth ?? 0) - 90 * turn, reach),
    );
  });
  const deep = [...groupBy(screens, ({ location }) => location)].flatMap(([, here]) =>
    here.some(({ verdict }) => isOver(verdict)) ? [answerBelow(here, screens, reach)] : [],
  );
  return {
    exceeding: hot.length,
    answers: [...level, ...deep],
    unresolved: reasons.size === 0 ? null : [...reasons].join(' '),
  };
}

function worstScreen(screens: readonly ScreenVerdict[]): ScreenVerdict | undefined {
  const worst = worstOf(screens.map(({ verdict }) => verdict));
  return screens.find(({ verdict }) => verdict === worst);
}

/** How far apart, in ground metres. */
const apart = (a: ScreenVerdict, b: ScreenVerdict, { combinedFactor }: Reach) =>
  Math.hypot(b.easting - a.easting, b.northing - a.northing) / combinedFactor;

/** Which way from a to b: degrees clockwise from grid north. */
const wayTo = (a: ScreenVerdict, b: ScreenVerdict) =>
  (Math.atan2(b.easting - a.easting, b.northing - a.northing) * 180) / Math.PI;

/** In (−180, 180]. */
const turned = (degrees: number) => -((((180 - degrees) % 360) + 360) % 360) + 180;

type Found = { readonly one: ScreenVerdict; readonly distance: number };

/** A point near enough to answer for a side, and which way it lies. */
type Around = Found & { readonly azimuth: number };

/** What decides among points near enough, nearest first: one that is known, else one that cannot tell. */
function decided(near: readonly Found[]): Pick<SideAnswer, 'status' | 'by' | 'distance'> {
  const sorted = near.toSorted((a, b) => a.distance - b.distance);
  const found =
    sorted.find(({ one }) => known(one.verdict)) ??
    sorted.find(({ one }) => one.verdict === 'cannot-tell') ??
    sorted[0];
  if (!found) return { status: 'nothing there', by: null, distance: null };
  const { one, distance } = found;
  const status = isOver(one.verdict)
    ? 'goes on'
    : known(one.verdict)
      ? 'delineated'
      : one.verdict === 'cannot-tell'
        ? 'limit exceeds level'
        : 'no usable result';
  return { status, by: one, distance: distance as Metres };
}

function answerToward(
  point: ScreenVerdict,
  near: readonly Around[],
  side: Side,
  azimuth: number,
  reach: Reach,
): SideAnswer {
  const thatWay = near.filter((to) => {
    const off = turned(to.azimuth - azimuth);
    return off > -45 && off <= 45;
  });
  const answer = decided(thatWay);
  const step = (reach.within / 2) * reach.combinedFactor;
  const radians = (azimuth * Math.PI) / 180;
  const next =
    answer.status === 'nothing there'
      ? {
          easting: point.easting + step * Math.sin(radians),
          northing: point.northing + step * Math.cos(radians),
          depth: null,
        }
      : null;
  return { location: point.location, zone: point.zone, side, ...answer, next };
}

function answerBelow(
  here: readonly ScreenVerdict[],
  all: readonly ScreenVerdict[],
  reach: Reach,
): SideAnswer {
  const hot = here.filter(({ verdict }) => isOver(verdict));
  const depths = hot.map(({ depth }) => depth);
  const [first] = hot;
  if (!first) throw new Error('nothing exceeds here');
  const base = { location: first.location, zone: first.zone, side: 'below' as const };
  if (depths.includes(null))
    return { ...base, status: 'depth not known', by: null, distance: null, next: null };
  const deepest = Math.max(...depths.flatMap((depth) => depth ?? []));
  const near = all.flatMap((one): Found[] => {
    if (one.depth === null || one.depth <= deepest) return [];
    const inNest = one.location === first.location || apart(first, one, reach) <= NEST;
    const down = one.depth - deepest;
    return inNest && down <= reach.below ? [{ one, distance: down }] : [];
  });
  const answer = decided(near);
  const next =
    answer.status === 'nothing there'
      ? {
          easting: first.easting,
          northing: first.northing,
          depth: (deepest + reach.below / 2) as Metres,
        }
      : null;
  return { ...base, ...answer, next };
}
