import type { EastNorth, LngLat } from './grid';
import { inUnits, METRES_PER, metres, type LengthUnit, type Metres } from './units';

/** A point as its row has it, in the grid's own unit. */
export type PlacedPoint = {
  readonly id: string;
  readonly easting: number;
  readonly northing: number;
};

/**
 * Something about coordinates that can be read and is doubtful, in the parts of
 * its sentence. None of it is proof: a person decides.
 */
export type GridSuspicion =
  /** Both coordinates 0, or one of them where no other point is near it. */
  | {
      readonly kind: 'zero';
      readonly id: string;
      readonly coordinate: 'easting' | 'northing' | 'both';
    }
  /** `distance` from the middle of the points, most of which lie within `usual` of it. */
  | {
      readonly kind: 'far-from-the-others';
      readonly id: string;
      readonly distance: Metres;
      readonly usual: Metres;
    }
  /** Far as it is, among the others with its coordinates exchanged. */
  | { readonly kind: 'swapped'; readonly id: string }
  /** All points lie outside the grid's area, and inside with easting and northing exchanged. */
  | { readonly kind: 'all-swapped' }
  /** All points lie outside the grid's area, and inside if the numbers are in this unit. */
  | { readonly kind: 'other-unit'; readonly unit: LengthUnit; readonly likely: LengthUnit }
  /** All points lie outside the area the grid is meant for. */
  | { readonly kind: 'outside-the-area' }
  /** Eastings within ±180 and northings within ±90: degrees, most likely. */
  | { readonly kind: 'degrees'; readonly exchanged: boolean }
  /** Points too far apart for one site. */
  | { readonly kind: 'too-wide'; readonly width: Metres };

// How far is far: common practice, no source. A background well may well stand
// half a kilometre off; a typed digit puts a point kilometres away.
const FAR_TIMES = 10;
const FAR_AT_LEAST = metres(500);
const TOO_WIDE = metres(50_000);

/** The middle one, or the mean of the two in the middle; NaN of nothing, which no caller asks for. */
const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length >> 1;
  const [upper, lower] = [sorted[half] ?? NaN, sorted[half - 1] ?? NaN];
  return sorted.length % 2 === 1 ? upper : (lower + upper) / 2;
};

/**
 * Doubts about the points of a site among themselves. A shift of all points
 * alike, such as the 28 ft between survey and international feet, can't be seen
 * here: see `controlSuspicion`.
 *
 * @param covers whether a place lies in the grid's area; null where none is known
 * @returns for the whole first, then point by point in the order given
 */
export function gridSuspicions(
  points: readonly PlacedPoint[],
  unit: LengthUnit,
  covers: (easting: number, northing: number) => boolean | null,
): readonly GridSuspicion[] {
  if (points.length === 0) return [];
  const degrees = inDegrees(points);
  if (degrees) return [degrees];

  const zeros = new Map(
    points.flatMap((p) => {
      const zero = zeroAmong(p, points);
      return zero ? [[p.id, zero] as const] : [];
    }),
  );
  const placed = points.filter((p) => !zeros.has(p.id));
  const whole = placed.length > 0 ? ofTheWhole(placed, unit, covers) : [];
  const odd = new Map(farOnes(placed, unit).map((suspicion) => [suspicion.id, suspicion]));
  return [
    ...whole,
    ...points.flatMap(({ id }) => {
      const suspicion = zeros.get(id) ?? odd.get(id);
      return suspicion ? [suspicion] : [];
    }),
  ];
}

const middleOf = (points: readonly PlacedPoint[]): EastNorth => [
  median(points.map((p) => p.easting)),
  median(points.map((p) => p.northing)),
];

function inDegrees(points: readonly PlacedPoint[]): GridSuspicion | null {
  const within = (e: number, n: number) =>
    points.every((p) => Math.abs(p.easting) <= e && Math.abs(p.northing) <= n);
  // A local grid near its origin also has small numbers, but hardly with decimals beyond the fourth.
  const fine = points.filter((p) =>
    [p.easting, p.northing].some((c) => Math.abs(c * 1e4 - Math.round(c * 1e4)) > 1e-6),
  );
  if (fine.length * 2 <= points.length) return null;
  if (within(180, 90)) return { kind: 'degrees', exchanged: false };
  return within(90, 180) ? { kind: 'degrees', exchanged: true } : null;
}

function zeroAmong(
  { id, easting, northing }: PlacedPoint,
  points: readonly PlacedPoint[],
): (GridSuspicion & { id: string }) | null {
  const lone = (pick: (p: PlacedPoint) => number) => {
    const others = points.filter((p) => p.id !== id).map((p) => Math.abs(pick(p)));
    return others.length > 0 && median(others) > 1000;
  };
  const [e, n] = [
    easting === 0 && lone((p) => p.easting),
    northing === 0 && lone((p) => p.northing),
  ];
  if (!e && !n) return null;
  return { kind: 'zero', id, coordinate: e && n ? 'both' : e ? 'easting' : 'northing' };
}

function ofTheWhole(
  points: readonly PlacedPoint[],
  unit: LengthUnit,
  covers: (easting: number, northing: number) => boolean | null,
): readonly GridSuspicion[] {
  const [easting, northing] = middleOf(points);
  if (covers(easting, northing) === false) {
    if (covers(northing, easting) === true) return [{ kind: 'all-swapped' }];
    // The two feet differ too little to take a point out of its zone; feet and metres don't.
    const likely = (['m', 'us-ft', 'ft'] as const).find((other) => {
      const ratio = METRES_PER[other] / METRES_PER[unit];
      return Math.abs(ratio - 1) > 0.01 && covers(easting * ratio, northing * ratio) === true;
    });
    return [likely ? { kind: 'other-unit', unit, likely } : { kind: 'outside-the-area' }];
  }
  const width = metres(2 * median(points.map((p) => distance(p, [easting, northing]))), unit);
  return width > TOO_WIDE ? [{ kind: 'too-wide', width }] : [];
}

const distance = (p: PlacedPoint, [easting, northing]: EastNorth) =>
  Math.hypot(p.easting - easting, p.northing - northing);

function farOnes(
  points: readonly PlacedPoint[],
  unit: LengthUnit,
): readonly (GridSuspicion & { id: string })[] {
  if (points.length < 3) return [];
  const middle = middleOf(points);
  const usual = median(points.map((p) => distance(p, middle)));
  const limit = Math.max(FAR_TIMES * usual, inUnits(FAR_AT_LEAST, unit));
  return points.flatMap((p): readonly (GridSuspicion & { id: string })[] => {
    const off = distance(p, middle);
    if (off <= limit) return [];
    const exchanged = { ...p, easting: p.northing, northing: p.easting };
    return distance(exchanged, middle) <= limit
      ? [{ kind: 'swapped', id: p.id }]
      : [{ kind: 'far-from-the-others', id: p.id, distance: metres(off, unit), usual: metres(usual, unit) }]; // prettier-ignore
  });
}

/** Longitudes that lie in the grid's area only with their sign turned: W was left out. */
export function longitudeSignSuspicion(
  places: readonly LngLat[],
  covers: (longitude: number, latitude: number) => boolean,
): boolean {
  return (
    places.length > 0 &&
    places.every(([lng, lat]) => !covers(lng, lat)) &&
    places.every(([lng, lat]) => covers(-lng, lat))
  );
}

/** A mark whose coordinates are known from outside the site, beside what the site has for it. */
export type ControlCheck = {
  readonly id: string;
  readonly known: EastNorth;
  readonly table: EastNorth;
};

export type ControlFinding =
  | { readonly kind: 'no-control' }
  /** Every mark is within the tolerance; `greatest` is the largest difference. */
  | { readonly kind: 'agrees'; readonly greatest: Metres }
  /**
   * The table's coordinates are the known ones times 1 ± 2 parts per million:
   * the same numbers of metres turned into the other foot. `tableIn` is the foot
   * the table seems to be in, `knownIn` that of the control.
   */
  | {
      readonly kind: 'other-foot';
      readonly tableIn: 'ft' | 'us-ft';
      readonly knownIn: 'ft' | 'us-ft';
      readonly shift: Metres;
    }
  | { readonly kind: 'swapped' }
  /** The table's coordinates are the known ones in another unit altogether. */
  | { readonly kind: 'other-unit'; readonly factor: number }
  /** All marks differ by the same shift, table minus known. */
  | {
      readonly kind: 'shifted';
      readonly east: Metres;
      readonly north: Metres;
      readonly distance: Metres;
    }
  /** The differences do not agree with each other; by mark, the largest first. */
  | {
      readonly kind: 'disagrees';
      readonly marks: readonly { readonly id: string; readonly distance: Metres }[];
    };

/** International feet in a survey foot, less one: 2.000004 parts per million. */
const FOOT_DIFFERENCE = METRES_PER['us-ft'] / METRES_PER.ft - 1;

/**
 * Compares the site's coordinates of control points with the known ones. Survey
 * against international feet moves every point of a site alike, by 2 parts per
 * million of its coordinates (28 ft at a northing of 13,800,000 ft), so that
 * only a control point can show it.
 *
 * @param tolerance what the surveys may differ by, metres
 */
export function controlFinding(
  marks: readonly ControlCheck[],
  unit: LengthUnit,
  tolerance: Metres = metres(0.05),
): ControlFinding {
  if (marks.length === 0) return { kind: 'no-control' };
  const slack = inUnits(tolerance, unit);
  const off = (factor: number) =>
    marks.map(({ known, table }) =>
      Math.hypot(table[0] - known[0] * factor, table[1] - known[1] * factor),
    );
  const fits = (factor: number, within = slack) => off(factor).every((d) => d <= within);
  const differences = off(1);
  if (fits(1)) return { kind: 'agrees', greatest: metres(Math.max(...differences), unit) };

  const shift = metres(median(differences), unit);
  if (fits(1 + FOOT_DIFFERENCE))
    return { kind: 'other-foot', tableIn: 'ft', knownIn: 'us-ft', shift };
  if (fits(1 / (1 + FOOT_DIFFERENCE)))
    return { kind: 'other-foot', tableIn: 'us-ft', knownIn: 'ft', shift };
  const exchanged = ({ known, table }: ControlCheck) =>
    Math.hypot(table[0] - known[1], table[1] - known[0]) <= slack;
  if (marks.every(exchanged)) return { kind: 'swapped' };
  const feet = [METRES_PER.ft, METRES_PER['us-ft'], 1 / METRES_PER.ft, 1 / METRES_PER['us-ft']];
  const factor = feet.find((f) => fits(f, slack * Math.max(1, f)));
  if (factor !== undefined) return { kind: 'other-unit', factor };

  const east = marks.map(({ known, table }) => table[0] - known[0]);
  const north = marks.map(({ known, table }) => table[1] - known[1]);
  const spread = (apart: readonly number[]) => Math.max(...apart) - Math.min(...apart);
  if (spread(east) > 2 * slack || spread(north) > 2 * slack)
    return {
      kind: 'disagrees',
      marks: marks
        .map(({ id, known, table }) => ({
          id,
          distance: metres(Math.hypot(table[0] - known[0], table[1] - known[1]), unit),
        }))
        .toSorted((a, b) => b.distance - a.distance),
    };
  return {
    kind: 'shifted',
    east: metres(median(east), unit),
    north: metres(median(north), unit),
    distance: metres(Math.hypot(median(east), median(north)), unit),
  };
}
