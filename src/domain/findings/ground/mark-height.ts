import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { Location, MeasuringPoint, Written } from '../../site/schema';
import type { Site } from '../../site/site';
import { METRES_PER, type LengthUnit, type Metres } from '../../units';
import type { Finding, Rule } from '../finding';
import { aboveOrBelow, feet, finding, middleOf, said, usualSpread } from '../words';

/** A mark lower than this below ground or higher above it is doubtful. Common practice, no source. */
const LOWEST = feet(-1.5);
const HIGHEST = feet(6);

/** Under this, feet and metres are too near each other to be told apart. */
const NEAR_ZERO = feet(30);

/** Marks described alike stand alike: one this far from the others is doubtful, or 4 times their scatter. */
const ODD_ONE_OUT = feet(0.5);
const TIMES_THE_SCATTER = 4;
const FEWEST_ALIKE = 4;

const FLUSH = /flush|vault|manhole|road ?box|street ?box/i;

type Mark = {
  readonly mark: MeasuringPoint;
  readonly location: Location;
  readonly elevation: Written<Metres, LengthUnit>;
  readonly ground: Written<Metres, LengthUnit>;
  /** Above ground, metres. */
  readonly height: number;
};

/**
 * Marks against the ground beside them: below it without being flush, flush and
 * yet standing up, higher than a casing, in another unit or datum, or unlike the
 * other marks of its kind.
 */
export const markHeight: Rule = ({ site }) => {
  const marks = marksOver(site);
  const kin = new Map(
    [...groupBy(marks, descriptionOf)].map(([description, alike]) => [description, kinOf(alike)]),
  );
  return marks.flatMap((one) => {
    const doubt = absoluteDoubt(site, one) ?? relativeDoubt(site, one, kin.get(descriptionOf(one)) ?? null); // prettier-ignore
    return doubt ? [found(one, doubt)] : [];
  });
};

const descriptionOf = ({ mark }: Mark) => mark.description ?? '';

function marksOver(site: Site): Mark[] {
  return [...site.measuringPoints.values()].flatMap((mark) => {
    const location = site.locations.get(site.screens.get(mark.screen)?.location ?? '');
    const { elevation } = mark;
    const ground = location?.ground_elevation;
    if (!location || !elevation || !ground || location.ground_how !== 'surveyed') return [];
    if (location.kind === 'staff gauge') return [];
    return [{ mark, location, elevation, ground, height: elevation.value - ground.value }];
  });
}

/** How high a mark stands, against the others described alike. */
export type Standing = {
  /** Above ground, metres. */
  readonly height: number;
  readonly others: number;
  readonly least: number;
  readonly most: number;
};

/** How a mark stands among those described alike; null where its ground is not surveyed or they are too few. */
export function standingOf(site: Site, mark: MeasuringPoint): Standing | null {
  const marks = marksOver(site);
  const own = marks.find((one) => one.mark === mark);
  if (!own) return null;
  const others = marks.filter((one) => one !== own && descriptionOf(one) === descriptionOf(own));
  if (others.length < FEWEST_ALIKE - 1) return null;
  const heights = others.map(({ height }) => height);
  return {
    height: own.height,
    others: others.length,
    least: Math.min(...heights),
    most: Math.max(...heights),
  };
}

type Doubt = { readonly severity: Finding['severity']; readonly says: string };

function absoluteDoubt(site: Site, { mark, elevation, ground, height }: Mark): Doubt | null {
  const where = `The mark ${mark.id}, ${said(site, elevation.value)}, is ${aboveOrBelow(site, height)} the ground at ${said(site, ground.value)}`;
  const stands = (mark: number) => mark - ground.value <= HIGHEST && mark - ground.value >= LOWEST;
  const inOther = [METRES_PER.ft, 1 / METRES_PER.ft].some((f) => stands(elevation.value * f));
  if (inOther && !stands(elevation.value) && Math.abs(ground.value) > NEAR_ZERO)
    return {
      severity: 'caution',
      says: `${where}: one of the two is in feet and the other in metres.`,
    };
  if (height > HIGHEST || height < LOWEST)
    return {
      severity: 'caution',
      says: `${where}: a number is wrong, or the two have different datums.`,
    };
  const flush = FLUSH.test(mark.description ?? '');
  if (flush && height > feet(0.1))
    return {
      severity: 'caution',
      says: `${where}, though it is described as “${mark.description ?? ''}”.`,
    };
  if (!flush && height < 0)
    return { severity: 'caution', says: `${where}, and is not described as flush.` };
  return null;
}

type Kin = { readonly count: number; readonly middle: number; readonly scatter: number };

/** How high marks described alike stand; null where they are too few to say. */
function kinOf(marks: readonly Mark[]): Kin | null {
  const heights = marks.map(({ height }) => height);
  const [middle, scatter] = [middleOf(heights), usualSpread(heights)];
  return marks.length < FEWEST_ALIKE || middle === null || scatter === null
    ? null
    : { count: marks.length, middle, scatter };
}

function relativeDoubt(site: Site, one: Mark, kin: Kin | null): Doubt | null {
  if (kin === null) return null;
  const off = Math.abs(one.height - kin.middle);
  if (off <= Math.max(ODD_ONE_OUT, TIMES_THE_SCATTER * kin.scatter)) return null;
  return {
    severity: 'caution',
    says: `The mark ${one.mark.id} stands ${aboveOrBelow(site, one.height)} ground; the ${kin.count - 1} others described as “${one.mark.description ?? ''}” stand about ${aboveOrBelow(site, kin.middle)} it.`,
  };
}

const found = ({ mark, location }: Mark, { severity, says }: Doubt) =>
  finding('height of a mark', mark.id, null, {
    severity,
    who: [location.id],
    says,
    todo: 'Look the mark and the ground up in the survey notes, and measure the stick-up.',
    cells: [
      cell('measuring_points', mark, 'elevation'),
      cell('locations', location, 'ground_elevation'),
    ],
  });
