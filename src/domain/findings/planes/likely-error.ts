import { cell } from '../../site/cite';
import { fixed, unitText } from '../../show';
import { inUnits, METRES_PER, type LengthUnit, type Metres } from '../../units';
import type { Source } from '../../work';
import { measuringPointElevation } from '../../water/measuring-point';
import type { GaugedScreen } from '../../water/event-heads';
import type { Site } from '../../site/site';

/** A slip of the pen that would put a head off by as much as it is. */
export type LikelyError = {
  /** A clause: "that is a foot". */
  readonly says: string;
  readonly cells: readonly Source[];
};

/** Which of the two numbers of a head a slip is in. */
export type SlipIn = 'mark' | 'depth';

type Slip = LikelyError & {
  /** Null where it may be in either. */
  readonly in: SlipIn | null;
  /** By how much it puts the head off, metres, up positive. */
  readonly off: number;
  /** Next to another slip of its kind by so much, metres: what it is told apart by. */
  readonly grain: number;
};

/**
 * A slip is named where it fits within so many standard errors, and where it and
 * the next of its kind are so many apart. A judgement, no source.
 */
const FITS = 4;
const SHOWS = 8;

/**
 * The slip that fits a head measured `off` higher than it should be, the nearest
 * first; null where none does. `error` is one standard error of `off`; `where`,
 * in which of the two numbers it must be, if other events tell.
 */
export function likelyError(
  site: Site,
  gauged: GaugedScreen,
  off: number,
  error: number,
  where: SlipIn | null = null,
): LikelyError | null {
  const fitting = slipsOf(site, gauged, where)
    .filter((slip) => where === null || slip.in === where)
    .filter((slip) => Math.abs(slip.off - off) <= FITS * error && slip.grain >= SHOWS * error)
    .toSorted((a, b) => Math.abs(a.off - off) - Math.abs(b.off - off));
  return fitting[0] ?? null;
}

const slipsOf = (site: Site, gauged: GaugedScreen, where: SlipIn | null): Slip[] => [
  ...roundSlips(site, gauged, where),
  ...digitSlips(gauged),
  ...unitSlips(gauged),
  ...markSlips(site, gauged),
];

type Round = readonly [size: number, unit: LengthUnit, words: string, grain: number];

/** A wrong digit in one place of a number. */
const ROUND: Readonly<Record<'m' | 'ft', readonly Round[]>> = {
  ft: [
    [1, 'ft', 'a foot', 1],
    [10, 'ft', 'ten feet', 10],
    [100, 'ft', 'a hundred feet', 100],
    [0.1, 'ft', 'a tenth of a foot', 0.1],
    ...[2, 3, 4, 5, 6, 7, 8, 9].map((n): Round => [n, 'ft', `${n} feet, one digit`, 1]),
  ],
  m: [
    [1, 'm', 'a metre', 1],
    [10, 'm', 'ten metres', 10],
    [0.1, 'm', 'a decimetre', 0.1],
    [1, 'ft', 'a foot', 1],
    ...[2, 3, 4, 5, 6, 7, 8, 9].map((n): Round => [n, 'm', `${n} metres, one digit`, 1]),
  ],
};

function roundSlips(
  site: Site,
  { reading, measuringPoint }: GaugedScreen,
  where: SlipIn | null,
): Slip[] {
  const family = site.settings.verticalUnit === 'm' ? 'm' : 'ft';
  const cells = [
    ...(where === 'mark' ? [] : [cell('water_levels', reading, 'depth_to_water')]),
    ...(measuringPoint && where !== 'depth'
      ? [cell('measuring_points', measuringPoint, 'elevation')]
      : []),
  ];
  const place = where === null ? 'in the mark or in the depth' : `in the ${where}`;
  return ROUND[family].flatMap(([n, unit, words, grain]) =>
    [1, -1].map((sign) => ({
      off: sign * n * METRES_PER[unit],
      grain: grain * METRES_PER[unit],
      says: `that is ${words}, ${place}`,
      in: where,
      cells,
    })),
  );
}

/** Two digits beside each other exchanged, in the depth or in the mark's elevation. */
function digitSlips({ reading, measuringPoint }: GaugedScreen): Slip[] {
  const depth = reading.depth_to_water;
  const mark = measuringPoint?.elevation;
  const slips = (
    written: { readonly text: string; readonly unit: LengthUnit } | null | undefined,
    name: SlipIn,
    from: Source,
    sign: 1 | -1,
  ) =>
    written
      ? exchangedDigits(written.text).map((text) => ({
          off: sign * (Number(written.text) - Number(text)) * METRES_PER[written.unit],
          grain: Math.abs(Number(written.text) - Number(text)) * METRES_PER[written.unit],
          says: `two digits exchanged would do it: the ${name} ${written.text} may be ${text}`,
          in: name,
          cells: [from],
        }))
      : [];
  return [
    ...slips(depth, 'depth', cell('water_levels', reading, 'depth_to_water'), -1),
    ...(measuringPoint
      ? slips(mark, 'mark', cell('measuring_points', measuringPoint, 'elevation'), 1)
      : []),
  ];
}

/** A number as written with each two neighbouring digits exchanged, where that changes it. */
export function exchangedDigits(text: string): string[] {
  const places = [...text].flatMap((digit, at) => (/\d/.test(digit) ? [at] : []));
  return places.slice(1).flatMap((second, k) => {
    const first = places[k] ?? 0;
    if (text[first] === text[second]) return [];
    const letters = [...text];
    [letters[first], letters[second]] = [letters[second] ?? '', letters[first] ?? ''];
    return [letters.join('')];
  });
}

/** A depth in feet among metres, or the other way. */
function unitSlips({ reading }: GaugedScreen): Slip[] {
  const depth = reading.depth_to_water;
  if (!depth) return [];
  const [here, there, factor] =
    depth.unit === 'm' ? ['metres', 'feet', METRES_PER.ft] : ['feet', 'metres', 1 / METRES_PER.ft];
  const meant = depth.value * factor;
  const inHere = fixed(inUnits(meant as Metres, depth.unit), 2);
  return [
    {
      off: meant - depth.value,
      grain: Math.abs(meant - depth.value),
      says: `the depth ${depth.text} may be ${there} in a column of ${here}: ${inHere} ${unitText(depth.unit)}`,
      in: 'depth',
      cells: [cell('water_levels', reading, 'depth_to_water')],
    },
  ];
}

/** The depth read from the ground and not from the mark, or the ground's elevation taken for the mark's. */
function markSlips(site: Site, { measuringPoint: mark, location, reading }: GaugedScreen): Slip[] {
  const ground = location.ground_elevation;
  const elevation = mark && measuringPointElevation(site, mark);
  if (!mark || !ground || !elevation?.ok) return [];
  const stickUp = elevation.elevation.value - ground.value;
  return [
    {
      off: stickUp,
      grain: Math.abs(stickUp),
      says: 'that is its stick-up: the depth may have been read from the ground',
      in: 'depth',
      cells: [cell('water_levels', reading, 'depth_to_water')],
    },
  ];
}
