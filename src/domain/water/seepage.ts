import { fail, ok, type Result } from '../result';
import { metres, METRES_PER, type LengthUnit, type Metres } from '../units';
import type { Source, Term, Worked } from '../work';

declare const perDay: unique symbol;
/** Hydraulic conductivity, seepage velocity, Darcy flux: all lengths per day. */
export type MetresPerDay = number & { readonly [perDay]: 'm/d' };
declare const day: unique symbol;
export type Days = number & { readonly [day]: 'd' };

/** Days in a year of 365¼. A year of 365 days makes a velocity per year 0.07 % less. */
export const DAYS_PER_YEAR = 365.25;

const LITRES_PER_GALLON = 3.785411784; // exactly: 231 cubic inches
const FOOT = METRES_PER.ft;

/** Metres per day in one of each, all exact but for the year. */
const METRES_PER_DAY = {
  'm/d': 1,
  'm/s': 86_400,
  'cm/s': 864,
  'ft/d': FOOT,
  'ft/yr': FOOT / DAYS_PER_YEAR,
  'm/yr': 1 / DAYS_PER_YEAR,
  'gpd/ft²': LITRES_PER_GALLON / 1000 / FOOT ** 2,
} as const;

export type VelocityUnit = keyof typeof METRES_PER_DAY;

/** So many of a unit, in metres per day. */
export const metresPerDay = (n: number, from: VelocityUnit = 'm/d') =>
  (n * METRES_PER_DAY[from]) as MetresPerDay;

/** The other way round: a velocity as a number of the unit. */
export const inVelocityUnits = (velocity: MetresPerDay, to: VelocityUnit): number =>
  velocity / METRES_PER_DAY[to];

/** From the least a number may be to the most. */
export type Range<T extends number = number> = { readonly low: T; readonly high: T };

/** A range somebody chose or measured, and where it came from. */
export type Chosen<T extends number = number> = Range<T> & { readonly from: Source };

/** What the velocity of ground water is worked from. */
export type SeepageGiven = {
  readonly conductivity: Chosen<MetresPerDay>;
  /** Fall of head per distance, not below 0. */
  readonly gradient: Chosen;
  /** Effective porosity, a part of one. */
  readonly porosity: Chosen;
};

export type SeepageProblem =
  | { readonly kind: 'no-conductivity' }
  | { readonly kind: 'no-gradient' }
  | { readonly kind: 'no-porosity' }
  | { readonly kind: 'range-upside-down'; readonly part: keyof SeepageGiven };

/** A velocity is a range: the slowest and the fastest that the given ranges allow. */
export type Seepage = {
  readonly slowest: Worked<MetresPerDay>;
  readonly fastest: Worked<MetresPerDay>;
  /** K·i: volume through a square metre of ground in a day, least and most. */
  readonly flux: Range<MetresPerDay>;
};

/** Where numbers of a length per day are printed, they are printed in one of these. */
export type PrintedIn = 'm/d' | 'ft/d';

const LENGTH_OF: Readonly<Record<PrintedIn, LengthUnit>> = { 'm/d': 'm', 'ft/d': 'ft' };

/** What a velocity or a travel time must not be read without. */
export const SEEPAGE_CAUTIONS: readonly string[] = [
  'Hydraulic conductivity is rarely known better than to a factor of ten: read the range, not its middle.',
  'Effective porosity is less than total porosity, in clay by as much as 25 times; specific yield is often used for it in sand.',
  'This is the average velocity of the water. Part of it moves faster, and what is dissolved or sorbed may move slower or not at all.',
  'The direction is that of the fall of head, which is the direction of flow only where the ground conducts alike in all directions: not in fractures, and not along layers that dip.',
];

/**
 * Average linear velocity of ground water, v = K·i/n: hydraulic conductivity
 * times gradient over effective porosity, as the range that the ranges given
 * allow. (R. C. Heath, 1983, Basic ground-water hydrology, USGS Water-Supply
 * Paper 2220, p. 25; page from memory.)
 */
export function seepage(
  given: SeepageGiven,
  unit: PrintedIn = 'm/d',
): Result<Seepage, SeepageProblem> {
  const { conductivity: k, gradient: i, porosity: n } = given;
  const problem = problemOf(given);
  if (problem) return fail(problem);
  return ok({
    slowest: velocity('Slowest', k.low, i.low, n.high, given, unit),
    fastest: velocity('Fastest', k.high, i.high, n.low, given, unit),
    flux: { low: (k.low * i.low) as MetresPerDay, high: (k.high * i.high) as MetresPerDay },
  });
}

function problemOf({ conductivity, gradient, porosity }: SeepageGiven): SeepageProblem | null {
  if (!(conductivity.low > 0 && Number.isFinite(conductivity.high)))
    return { kind: 'no-conductivity' };
  if (!(gradient.low >= 0 && Number.isFinite(gradient.high))) return { kind: 'no-gradient' };
  if (!(porosity.low > 0 && porosity.high <= 1)) return { kind: 'no-porosity' };
  for (const [part, { low, high }] of Object.entries({ conductivity, gradient, porosity }))
    if (low > high) return { kind: 'range-upside-down', part: part as keyof SeepageGiven };
  return null;
}

function velocity(
  which: string,
  k: MetresPerDay,
  i: number,
  n: number,
  given: SeepageGiven,
  unit: PrintedIn,
): Worked<MetresPerDay> {
  const value = ((k * i) / n) as MetresPerDay;
  return {
    value,
    work: {
      title: `${which} seepage velocity, ${unit}`,
      symbol: 'v',
      formula: 'K * i / n',
      terms: [
        {
          ...number('K', `hydraulic conductivity, ${unit}`, inVelocityUnits(k, unit)),
          from: given.conductivity.from,
        },
        { symbol: 'i', name: 'gradient', value: i, dimension: 'slope', from: given.gradient.from },
        { ...number('n', 'effective porosity', n), from: given.porosity.from },
      ],
      answer: { value: inVelocityUnits(value, unit), dimension: 'number' },
      decimals: decimalsOf(inVelocityUnits(value, unit)),
      note: 'Average linear velocity (Heath, 1983, USGS Water-Supply Paper 2220, p. 25; page from memory).',
    },
  };
}

const number = (symbol: string, name: string, value: number): Omit<Term, 'from'> => ({
  symbol,
  name,
  value,
  dimension: 'number',
});

/** Three figures. */
const decimalsOf = (value: number) =>
  value === 0 ? 0 : Math.min(15, Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value)))));

/** How long the water takes; `longest` null where the slowest water stands still. */
export type TravelTime = {
  readonly shortest: Worked<Days> | null;
  readonly longest: Worked<Days> | null;
};

/**
 * Time for water to go a distance at a seepage velocity, t = distance / v, as a
 * range. Null in place of a time where the water does not move.
 */
export function travelTime(
  distance: Chosen<Metres>,
  { slowest, fastest }: Seepage,
  unit: PrintedIn = 'm/d',
): TravelTime {
  return {
    shortest: time('Shortest', distance.low, fastest, distance.from, unit),
    longest: time('Longest', distance.high, slowest, distance.from, unit),
  };
}

function time(
  which: string,
  distance: Metres,
  v: Worked<MetresPerDay>,
  from: Source,
  unit: PrintedIn,
): Worked<Days> | null {
  if (!(v.value > 0)) return null;
  const value = (distance / v.value) as Days;
  const length = LENGTH_OF[unit];
  return {
    value,
    work: {
      title: `${which} travel time, days`,
      symbol: 't',
      formula: 'distance / v',
      terms: [
        { ...number('distance', `distance, ${length}`, distance / METRES_PER[length]), from },
        {
          ...number('v', `seepage velocity, ${unit}`, inVelocityUnits(v.value, unit)),
          from: { kind: 'work', work: v.work },
        },
      ],
      answer: { value, dimension: 'number' },
      decimals: decimalsOf(value),
    },
  };
}

/** Days as years of 365¼ days. */
export const inYears = (days: Days): number => days / DAYS_PER_YEAR;

/** A stretch of a flow line with one gradient. */
export type Stretch = { readonly length: Metres; readonly gradient: number };

/**
 * The one gradient at which water would take as long over a flow line as it does
 * over its stretches at theirs: the harmonic mean, weighted by length. Together
 * with the length it is what `seepage` and `travelTime` are given. Null where a
 * stretch is level, since the water would never pass it.
 */
export function steadyGradient(
  stretches: readonly Stretch[],
): { readonly length: Metres; readonly gradient: number } | null {
  const length = stretches.reduce((sum, stretch) => sum + stretch.length, 0);
  if (!(length > 0) || stretches.some(({ gradient }) => !(gradient > 0))) return null;
  const slowness = stretches.reduce((sum, stretch) => sum + stretch.length / stretch.gradient, 0);
  return { length: metres(length), gradient: length / slowness };
}
