import type { Location, MeasuringPoint, Row, Screen } from '../site/schema';
import type { Site } from '../site/site';
import type { Metres } from '../units';
import type { Worked } from '../work';
import { decisionOn } from './decided';
import { headUnderProduct, waterElevation } from './head';
import { measuringPointElevation, measuringPointOf } from './measuring-point';
import { depthsApart, ofOneZone } from './unnamed-zone';

/** Wells stand; push points are open for an hour; gauges read a stream or pond. */
export type PointClass = 'well' | 'push' | 'gauge';

/** Why a reading does not count in a plane, or has no head at all. */
export type LeftOut =
  | 'dry'
  | 'obstructed'
  | 'no-measuring-point'
  | 'not-surveyed'
  | 'no-stick-up'
  | 'estimated-elevation'
  | 'product-without-density'
  | 'product-in-push-point'
  | 'product-too-dense'
  | 'recovering'
  | 'pumping'
  | 'flowing'
  | 'push-point'
  | 'staff-gauge'
  | 'supply-well'
  | 'no-zone'
  | 'depths-apart'
  | 'no-coordinates'
  | 'read-again'
  | 'marked-not-used'
  | 'excluded';

const WORDS: Readonly<Record<LeftOut, string>> = {
  dry: 'dry, or the water is below the screen',
  obstructed: 'obstructed: no level could be read',
  'no-measuring-point': 'no measuring point is recorded for it',
  'not-surveyed': 'its measuring point is not surveyed',
  'no-stick-up': 'no stick-up is recorded for its measuring point',
  'estimated-elevation': 'its elevation is estimated, not surveyed',
  'product-without-density': 'product floats on it and no density was measured',
  'product-in-push-point':
    'product in a temporary push point: its thickness is not that in the ground',
  'product-too-dense': 'product not lighter than water cannot be corrected for',
  recovering: 'the level was still recovering',
  pumping: 'it was being pumped',
  flowing: 'it was flowing at the surface',
  'push-point': 'a temporary push point: recovery is not shown, nobody has included it',
  'staff-gauge': 'surface water, which nobody has included',
  'supply-well': 'a supply well, which nobody has included',
  'no-zone': 'its interval crosses a contact or has no zone',
  'depths-apart': 'no zone is named, and the screens gauged lie at depths apart',
  'no-coordinates': 'its location has no coordinates',
  'read-again': 'another reading of the same screen counts instead',
  'marked-not-used': 'marked as not to be used',
  excluded: 'excluded by a decision',
};

export const leftOutWords = (reason: LeftOut) => WORDS[reason];

/** A screen gauged in an event. */
export type GaugedScreen = {
  readonly screen: Screen;
  readonly location: Location;
  readonly reading: Row<'water_levels'>;
  readonly measuringPoint: MeasuringPoint | null;
  readonly class: PointClass;
  /** Null: no head can be worked out, and `leftOut` says why. */
  readonly head: Worked<Metres> | null;
  /** One standard error of the head. */
  readonly sigma: Metres;
  /** Null: it counts in the plane of its zone. */
  readonly leftOut: LeftOut | null;
  /** The reason somebody gave, where a person decided. */
  readonly because: string | null;
};

/** Error of a reading, 0.01 ft, and of the tape, 0.005 ft: one standard error. Common practice, no source. */
const READING_ERROR = 0.003048;
const TAPE_ERROR = 0.001524;

const CLASS_OF: Readonly<Record<Location['kind'], PointClass>> = {
  'direct push': 'push',
  'monitoring well': 'well',
  piezometer: 'well',
  'supply well': 'well',
  'staff gauge': 'gauge',
};

/**
 * Every screen gauged in an event, in the order of the readings, with its head,
 * and whether it counts or why it does not. Levels from temporary push points
 * and surface water are left out until somebody includes them with a reason.
 * Where no zone is named at all, those that lie among each other are of one.
 */
export function headsOf(site: Site, event: string): GaugedScreen[] {
  const readings = site.waterLevels.filter((reading) => reading.event === event);
  const last = lastReadings(readings);
  const inOneZone = ofOneZone(site);
  const all = readings.flatMap((reading) => {
    const screen = site.screens.get(reading.screen);
    const location = site.locations.get(screen?.location ?? '');
    return screen && location
      ? [gauged(site, screen, location, reading, last.get(screen.id) === reading, inOneZone)]
      : [];
  });
  const counting = all.filter(({ screen, leftOut }) => leftOut === null && screen.zone === null);
  if (depthsApart(counting) === null) return all;
  const apart = new Set(counting);
  return all.map((one) => (apart.has(one) ? { ...one, leftOut: 'depths-apart' } : one));
}

/** Of the readings of a screen: one at rest weighs most, one that came to no depth least. */
const weightOf = ({ status }: Row<'water_levels'>) =>
  status === 'static' ? 2 : status === 'obstructed' ? 0 : 1;

/**
 * Of each screen the reading that counts: the last static one, else the last; one
 * that could not be taken only where there is no other.
 */
function lastReadings(readings: readonly Row<'water_levels'>[]) {
  const last = new Map<string, Row<'water_levels'>>();
  for (const reading of readings) {
    const before = last.get(reading.screen);
    const heavier = before ? weightOf(reading) - weightOf(before) : 1;
    const isLater = heavier === 0 && (reading.time ?? '') >= (before?.time ?? '');
    if (heavier > 0 || isLater) last.set(reading.screen, reading);
  }
  return last;
}

function gauged(
  site: Site,
  screen: Screen,
  location: Location,
  reading: Row<'water_levels'>,
  counts: boolean,
  inOneZone: (screen: Screen) => boolean,
): GaugedScreen {
  const point = measuringPointOf(site, reading);
  const kind = CLASS_OF[location.kind];
  const level = headOf(site, screen, location, reading, point, kind);
  const decided = decisionOn(site, screen.id, reading.event);
  const included = decided?.what === 'include' || reading.use === true;
  const base = {
    screen,
    location,
    reading,
    measuringPoint: point,
    class: kind,
    sigma: sigmaOf(site, point),
    head: level.head,
    because: decided?.reason ?? (reading.use === null ? null : reading.why),
  };
  const leftOut = (): LeftOut | null => {
    if (!counts) return 'read-again';
    if (level.head === null) return level.reason;
    if (location.easting === null || location.northing === null) return 'no-coordinates';
    if (decided?.what === 'exclude') return 'excluded';
    if (reading.use === false) return 'marked-not-used';
    if (screen.zone === null && !inOneZone(screen)) return 'no-zone';
    return included ? null : doubtOf(reading, kind, location, level.estimated);
  };
  return { ...base, leftOut: leftOut() };
}

/** What keeps a reading out of planes until somebody includes it. */
function doubtOf(
  { status }: Row<'water_levels'>,
  kind: PointClass,
  location: Location,
  estimated: boolean,
): LeftOut | null {
  if (status === 'recovering' || status === 'pumping' || status === 'flowing') return status;
  if (kind === 'push') return 'push-point';
  if (kind === 'gauge') return 'staff-gauge';
  if (location.kind === 'supply well') return 'supply-well';
  return estimated ? 'estimated-elevation' : null;
}

type Level =
  | { readonly head: Worked<Metres>; readonly estimated: boolean }
  | { readonly head: null; readonly reason: LeftOut };

function headOf(
  site: Site,
  screen: Screen,
  location: Location,
  reading: Row<'water_levels'>,
  point: MeasuringPoint | null,
  kind: PointClass,
): Level {
  const none = (reason: LeftOut): Level => ({ head: null, reason });
  if (reading.status === 'dry' || reading.status === 'obstructed') return none(reading.status);
  const depth = reading.depth_to_water;
  if (!depth) return none(reading.status === 'flowing' ? 'flowing' : 'obstructed');
  if (!point) return none('no-measuring-point');
  const mp = measuringPointElevation(site, point);
  if (!mp.ok) return none(mp.reason);

  const measured = waterElevation(mp.elevation, reading, depth);
  const head = underProduct(measured, reading, kind);
  if (typeof head === 'string') return none(head);
  const base = screenBase(screen, location);
  return base !== null && head.value < base ? none('dry') : { head, estimated: mp.estimated };
}

function underProduct(
  measured: Worked<Metres>,
  reading: Row<'water_levels'>,
  kind: PointClass,
): Worked<Metres> | LeftOut {
  const { depth_to_water: water, depth_to_product: product, product_density: density } = reading;
  if (!water || !product || product.value === water.value) return measured;
  if (kind === 'push') return 'product-in-push-point';
  if (!density) return 'product-without-density';
  if (density.value >= 1) return 'product-too-dense';
  return headUnderProduct(measured, reading, water, product, density);
}

/** Elevation of the base of a screen; null where tip depth or ground is not known. */
function screenBase(screen: Screen, { ground_elevation: ground }: Location): number | null {
  return screen.tip_depth && ground
    ? ground.value - screen.tip_depth.value + (screen.tool_offset?.value ?? 0)
    : null;
}

const sigmaOf = (site: Site, point: MeasuringPoint | null): Metres =>
  point?.accuracy
    ? (Math.hypot(point.accuracy.value, READING_ERROR, TAPE_ERROR) as Metres)
    : site.settings.headError;
