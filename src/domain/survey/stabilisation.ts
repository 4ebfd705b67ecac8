/** A field parameter of a purge, as a column of its table. */
export type Parameter =
  'ph' | 'conductance' | 'dissolved_oxygen' | 'orp' | 'temperature' | 'turbidity';

/** How near successive readings of one parameter must be, in its recorded unit. */
export type Criterion = {
  readonly parameter: Parameter;
  /** So much either way; null where only a percentage is asked. */
  readonly within: number | null;
  /** So many percent of the mean either way; with both, whichever is greater. */
  readonly percent: number | null;
  /** At or below this it is steady whatever its percentage: turbidity near nothing. Null for none. */
  readonly steadyBelow: number | null;
  readonly known: 'read' | 'as quoted' | 'from memory' | 'set here';
};

/**
 * A named set of criteria. The published sets differ, so none is the right one:
 * a site says which is in use, and may write its own.
 */
export type CriteriaSet = {
  readonly name: string;
  readonly source: string;
  /** Successive readings that must agree. */
  readonly readings: number;
  /** Least minutes from one to the next; null where the source does not say. */
  readonly minutesApart: number | null;
  /**
   * `mean`: each reading within the criterion of their mean. `range`: the
   * largest less the smallest within it, which is stricter. The sources say
   * "±" and not of what.
   */
  readonly compared: 'mean' | 'range';
  readonly criteria: readonly Criterion[];
};

const within = (parameter: Parameter, amount: number, known: Criterion['known']): Criterion => ({
  parameter,
  within: amount,
  percent: null,
  steadyBelow: null,
  known,
});
const percent = (
  parameter: Parameter,
  percentage: number,
  known: Criterion['known'],
  orWithin: number | null = null,
): Criterion => ({
  parameter,
  within: orWithin,
  percent: percentage,
  steadyBelow: null,
  known,
});

export const CRITERIA_SETS: readonly CriteriaSet[] = [
  {
    name: 'Puls and Barcelona, 1996',
    source: 'R. W. Puls and M. J. Barcelona, 1996, EPA/540/S-95/504',
    readings: 3,
    minutesApart: 3,
    compared: 'mean',
    criteria: [
      within('ph', 0.1, 'as quoted'),
      percent('conductance', 3, 'from memory'),
      within('orp', 10, 'from memory'),
      percent('dissolved_oxygen', 10, 'from memory'),
      percent('turbidity', 10, 'from memory'),
    ],
  },
  {
    name: 'Paul and Puls, 2001',
    source: 'C. J. Paul and R. W. Puls, 2001, EPA / GWPC',
    readings: 3,
    minutesApart: 3,
    compared: 'mean',
    criteria: [
      within('ph', 0.05, 'read'),
      percent('conductance', 3, 'read'),
      within('orp', 5, 'read'),
      percent('dissolved_oxygen', 10, 'read'),
      percent('turbidity', 10, 'read'),
    ],
  },
  {
    name: 'ASTM D6771',
    source: 'ASTM D6771, low-flow purging and sampling',
    readings: 3,
    minutesApart: null,
    compared: 'mean',
    criteria: [
      within('ph', 0.2, 'as quoted'),
      percent('conductance', 3, 'from memory'),
      within('orp', 20, 'from memory'),
      percent('dissolved_oxygen', 10, 'as quoted', 0.2),
      percent('turbidity', 10, 'from memory', 1),
    ],
  },
];

/** A set of readings at one time; a parameter not read is null or left out. */
export type PurgeReading = { readonly minutes: number } & {
  readonly [P in Parameter]?: number | null;
};

export type ParameterState = {
  readonly parameter: Parameter;
  readonly state: 'steady' | 'changing' | 'not read';
  /** Farthest from the mean, or largest less smallest, as the set compares; null where not read. */
  readonly apart: number | null;
  /** What is allowed of that; null where not read. */
  readonly allowed: number | null;
};

export type Stabilisation = {
  readonly verdict:
    'stable' | 'changing' | 'too few readings' | 'too close together' | 'not all read';
  /** In the order of the set's criteria; none with too few readings. */
  readonly parameters: readonly ParameterState[];
};

/** Equal decimals compared after subtraction. */
const ROUNDING = 1e-9;

/**
 * Whether the last readings of a purge agree by a set of criteria.
 *
 * @param readings  in the order of time
 */
export function stabilisation(readings: readonly PurgeReading[], set: CriteriaSet): Stabilisation {
  const last = readings.slice(-set.readings);
  if (last.length < set.readings) return { verdict: 'too few readings', parameters: [] };
  const parameters = set.criteria.map((criterion) => stateOf(criterion, last, set.compared));
  const { minutesApart } = set;
  const close =
    minutesApart !== null &&
    last.some(
      ({ minutes }, i) => minutes - (last[i - 1]?.minutes ?? -Infinity) < minutesApart - ROUNDING,
    );
  const some = (state: ParameterState['state']) => parameters.some((one) => one.state === state);
  const verdict = some('changing')
    ? 'changing'
    : some('not read')
      ? 'not all read'
      : close
        ? 'too close together'
        : 'stable';
  return { verdict, parameters };
}

function stateOf(
  { parameter, within: amount, percent: percentage, steadyBelow }: Criterion,
  readings: readonly PurgeReading[],
  compared: CriteriaSet['compared'],
): ParameterState {
  const values = readings.map((reading) => reading[parameter] ?? null);
  const read = values.flatMap((value) => (value !== null && Number.isFinite(value) ? [value] : []));
  if (read.length < values.length)
    return { parameter, state: 'not read', apart: null, allowed: null };
  const mean = read.reduce((sum, value) => sum + value, 0) / read.length;
  const allowed = Math.max(amount ?? 0, ((percentage ?? 0) / 100) * Math.abs(mean));
  const apart =
    compared === 'mean'
      ? Math.max(...read.map((value) => Math.abs(value - mean)))
      : Math.max(...read) - Math.min(...read);
  const low = steadyBelow !== null && Math.max(...read) <= steadyBelow;
  const state = low || apart <= allowed + ROUNDING * Math.max(1, allowed) ? 'steady' : 'changing';
  return { parameter, state, apart, allowed };
}

/** Where purging stops whether it cleared or not. Null for no such limit. */
export type PurgeLimit = { readonly minutes: number | null; readonly litres: number | null };

export type PurgeOutcome = 'ready to sample' | 'keep purging' | 'did not clear';

/** What to do next: a limit reached without agreement is an outcome of its own, never "stable". */
export function purgeOutcome(
  { verdict }: Stabilisation,
  purged: { readonly minutes: number; readonly litres: number },
  limit: PurgeLimit,
): PurgeOutcome {
  if (verdict === 'stable') return 'ready to sample';
  const reached =
    (limit.minutes !== null && purged.minutes >= limit.minutes) ||
    (limit.litres !== null && purged.litres >= limit.litres);
  return reached ? 'did not clear' : 'keep purging';
}
