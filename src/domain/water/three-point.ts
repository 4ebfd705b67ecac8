import { fail, ok, type Result } from '../result';
import { metres, type Azimuth, type Metres } from '../units';
import {
  fitPlane,
  type HeadPoint,
  type LevelSurface,
  type Plane,
  type PlaneProblem,
} from './plane';
import { roundingOf } from './plane-solver';

export type Place = { readonly x: Metres; readonly y: Metres };

/** A place and what is there. */
export type HeadAt = Place & { readonly head: Metres };

/**
 * The three-point problem as drawn on paper, one step after another. Places are
 * in the frame of the wells.
 */
export type Construction = {
  /** Step 1: the wells by their heads. Of equal heads, the one given first comes first. */
  readonly high: HeadPoint;
  readonly intermediate: HeadPoint;
  readonly low: HeadPoint;
  /** The well whose head another shares, so that no point needs interpolating; null when all differ. */
  readonly tie: 'intermediate-is-high' | 'intermediate-is-low' | null;
  /** Step 2: where the intermediate head falls on the line from the high to the low well. */
  readonly interpolated: HeadAt & {
    /** Part of the way from high to low, 0 to 1. */
    readonly part: number;
    readonly fromHigh: Metres;
    /** Length of the line from high to low. */
    readonly line: Metres;
  };
  /** Step 3: the contour of the intermediate head, from its well to the interpolated point. */
  readonly contour: { readonly head: Metres; readonly from: Place; readonly to: Place };
  /**
   * Step 4: square to the contour, from its foot there to the low well. To the
   * high well, which lies above the contour, if the other two are equally low.
   */
  readonly perpendicular: {
    readonly foot: Place;
    readonly well: 'low' | 'high';
    readonly to: HeadPoint;
    readonly distance: Metres;
  };
  /** Step 5: the fall between contour and well, and it over the distance. */
  readonly drop: Metres;
  readonly gradient: number;
};

/** What is done in each step that is drawn, as it is said beside the drawing. */
export const CONSTRUCTION_WORDS: readonly string[] = [
  'Join the three wells and write the head at each.',
  'On the line from the highest to the lowest head, find by proportion where the head is that of the middle well.',
  'Join that place with the middle well: this is a contour of the water level.',
  'From the contour draw a line square to it, to the third well. Water moves along it, from high to low; the fall over its length is the gradient.',
];

export type ThreePoint = {
  /** The exact plane through the three. */
  readonly plane: Plane;
  /** Null for a level surface: nothing to draw, and `level` says why. */
  readonly construction: Construction | null;
  readonly level: LevelSurface | null;
  /** Of flow, clockwise from grid north; null for a level surface. */
  readonly azimuth: Azimuth | null;
};

export type ThreePointProblem =
  PlaneProblem | { readonly kind: 'not-three-wells'; readonly have: number };

/**
 * Which way and how steeply the water goes between three wells, both ways: the
 * exact plane, and the graphical construction of R. C. Heath, 1983, Basic
 * ground-water hydrology, USGS Water-Supply Paper 2220, p. 11 (page from
 * memory). Measured without a ruler, the two agree.
 */
export function threePoint(wells: readonly HeadPoint[]): Result<ThreePoint, ThreePointProblem> {
  if (wells.length !== 3) return fail({ kind: 'not-three-wells', have: wells.length });
  const fitted = fitPlane(wells, { weighted: false });
  if (!fitted.ok) return fitted;
  const plane = fitted.value;
  const { level, azimuth } = plane;
  const construction = level ? null : constructionOf(wells);
  return ok({ plane, construction, level, azimuth });
}

function constructionOf(wells: readonly HeadPoint[]): Construction | null {
  const [high, intermediate, low] = wells.toSorted((one, other) => other.head - one.head);
  if (!high || !intermediate || !low) return null;
  const rounding = roundingOf(Math.max(...wells.map(({ head }) => Math.abs(head))));
  const tie =
    high.head - intermediate.head <= rounding
      ? 'intermediate-is-high'
      : intermediate.head - low.head <= rounding
        ? 'intermediate-is-low'
        : null;

  const line = { east: low.x - high.x, north: low.y - high.y };
  const part =
    tie === 'intermediate-is-high'
      ? 0
      : tie === 'intermediate-is-low'
        ? 1
        : (high.head - intermediate.head) / (high.head - low.head);
  const length = Math.hypot(line.east, line.north);
  const interpolated = {
    x: metres(high.x + part * line.east),
    y: metres(high.y + part * line.north),
    head: intermediate.head,
    part,
    fromHigh: metres(part * length),
    line: metres(length),
  };

  // Along the contour, and from the intermediate well to the one measured to.
  const along = {
    east: high.x - intermediate.x + part * line.east,
    north: high.y - intermediate.y + part * line.north,
  };
  const well = tie === 'intermediate-is-low' ? 'high' : 'low';
  const to = well === 'low' ? low : high;
  const away = { east: to.x - intermediate.x, north: to.y - intermediate.y };
  const contourLength = Math.hypot(along.east, along.north);
  const across = along.east * away.north - along.north * away.east;
  const distance = Math.abs(across) / contourLength;
  const reach = (along.east * away.east + along.north * away.north) / contourLength ** 2;
  const drop = Math.abs(intermediate.head - to.head);
  return {
    high,
    intermediate,
    low,
    tie,
    interpolated,
    contour: {
      head: intermediate.head,
      from: { x: intermediate.x, y: intermediate.y },
      to: { x: interpolated.x, y: interpolated.y },
    },
    perpendicular: {
      foot: {
        x: metres(intermediate.x + reach * along.east),
        y: metres(intermediate.y + reach * along.north),
      },
      well,
      to,
      distance: metres(distance),
    },
    drop: metres(drop),
    gradient: drop / distance,
  };
}
