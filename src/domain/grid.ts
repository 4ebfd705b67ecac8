import { azimuth, type Azimuth, type Degrees, type LengthUnit, type Metres } from './units';

/**
 * What the arithmetic of a site must know of its grid, at one place and one
 * elevation: the site's centre. Plain facts; how they come from a projection is
 * the business of `io/projection`.
 */
export type GridFacts = {
  /** As people know it: "NAD83 / Indiana East (ftUS)". */
  readonly name: string;
  /** Unit the eastings and northings are written in. */
  readonly unit: LengthUnit;
  /** Whether angles on the grid are angles on the ground, and the scale the same in all directions. */
  readonly conformal: boolean;
  /**
   * Positive where grid north is east of true north: true azimuth = grid
   * azimuth + convergence. Null for a local grid tied to nothing.
   */
  readonly convergence: Degrees | null;
  /** Grid distance over distance on the ellipsoid; null where there is no one such number. */
  readonly pointScale: number | null;
  /** Grid distance over ground distance; null: take grid distances as they are. */
  readonly combinedFactor: number | null;
  /** The elevation the combined factor is for. */
  readonly elevation: Metres;
  /** What a person should know before trusting distances and directions, in sentences; else null. */
  readonly caution: string | null;
  /** Nothing of the site has a place yet: what hangs on one is not said. */
  readonly unplaced?: true;
};

/** Convergence for a north mark: null where true north is not known, undefined where there is no place to say it of. */
export const northOf = ({ convergence, unplaced }: GridFacts): Degrees | null | undefined =>
  unplaced ? undefined : convergence;

/**
 * Mean radius of the earth, in metres, that State Plane work uses for the
 * elevation factor. J. E. Stem, 1990, State Plane Coordinate System of 1983,
 * NOAA Manual NOS NGS 5, gives 20,906,000 ft (value from memory). The true
 * radius differs by up to 0.3 %, which changes the factor by 1 part in a
 * million at 2,000 m.
 */
export const EARTH_RADIUS = 6_372_000 as Metres;

/**
 * Point scale × elevation factor, k·R / (R + h). The elevation should be above
 * the ellipsoid; above sea level serves, the 30 m between them being 5 parts in
 * a million.
 */
export const combinedFactor = (pointScale: number, elevation: Metres): number =>
  (pointScale * EARTH_RADIUS) / (EARTH_RADIUS + elevation);

/** Ground distance of a grid distance, both in metres: divided by the combined factor. */
export const toGround = (gridDistance: Metres, facts: GridFacts) =>
  (gridDistance / (facts.combinedFactor ?? 1)) as Metres;

/**
 * Azimuth from true north of a direction given from grid north. Null when the
 * convergence is not known. The arc-to-chord correction (t − T), tenths of a
 * second over a site, is left out.
 */
export const trueAzimuth = (gridAzimuth: number, convergence: Degrees | null): Azimuth | null =>
  convergence === null ? null : azimuth(gridAzimuth + convergence);

/** The other way round: grid azimuth of a direction given from true north. */
export const gridAzimuth = (fromTrueNorth: number, convergence: Degrees | null): Azimuth | null =>
  convergence === null ? null : azimuth(fromTrueNorth - convergence);

/** Longitude then latitude, degrees, east and north positive, as map libraries have it. */
export type LngLat = readonly [longitude: number, latitude: number];

/** Easting then northing, in the grid's own unit. */
export type EastNorth = readonly [easting: number, northing: number];

/** How positions get from the grid's own datum to WGS 84. It concerns the backdrop only. */
export type DatumNote = {
  /** "NAD27", "OSGB36"; null for a local grid tied to nothing. */
  readonly name: string | null;
  /** Whether positions are moved for display; false where they are used as they are. */
  readonly shifted: boolean;
  /** Stated accuracy of what is displayed, where its publisher states one. */
  readonly accuracy: Metres | null;
  /** One or two sentences for the person. */
  readonly note: string;
};

/**
 * A grid opened for use. Positions go in and come out in the grid's own unit;
 * null comes back for a place the projection does not reach.
 */
export type Grid = {
  readonly name: string;
  readonly unit: LengthUnit;
  readonly datum: DatumNote;
  readonly factsAt: (easting: number, northing: number, elevation: Metres) => GridFacts;
  /** For display over anything else: WGS 84, shifted as `datum` says. */
  readonly toLngLat: (easting: number, northing: number) => LngLat | null;
  readonly fromLngLat: (longitude: number, latitude: number) => EastNorth | null;
  /** On the grid's own datum, longitude from Greenwich: as a survey sheet in that datum gives it. */
  readonly toOwnLngLat: (easting: number, northing: number) => LngLat | null;
  readonly fromOwnLngLat: (longitude: number, latitude: number) => EastNorth | null;
  /** Whether a place lies in the area the grid is meant for; null where none is stated. */
  readonly covers: (easting: number, northing: number) => boolean | null;
};
