import { lengthWorked, workedOut, type Given } from '../layout/given';
import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';
import type { Work, Worked } from '../work';

/**
 * A line of the level book: a point, the rod read back on it from the next
 * set-up, and the rod read on it forward from the set-up before. A point read
 * forward only, before the last line, is a side shot: the same set-up goes on.
 */
export type Shot = {
  readonly order: number;
  readonly point: string;
  readonly backsight: Given | null;
  readonly foresight: Given | null;
  /** Of the leg that ends at this point; null not measured. */
  readonly distance: Metres | null;
  /** Elevation of a benchmark; null where it is to be found. */
  readonly known: Given | null;
};

export type Station = {
  readonly order: number;
  readonly point: string;
  readonly kind: 'start' | 'turning' | 'side';
  /** As measured, before any adjustment. */
  readonly elevation: Worked<Metres>;
  /** Set-ups from the start to here. */
  readonly setUps: number;
  /** Length levelled from the start to here; null where a leg was not measured. */
  readonly run: Metres | null;
};

/** The level book reduced. */
export type LevelLoop = {
  /** In the order of the shots. */
  readonly stations: readonly Station[];
  readonly setUps: number;
  readonly length: Metres | null;
  readonly page: PageCheck;
  /** Against every benchmark after the start, in the order met; the last is the closure. */
  readonly checks: readonly Check[];
};

/** Backsights less foresights of turning points against last elevation less first: the arithmetic alone. */
export type PageCheck = {
  readonly backsights: Metres;
  readonly foresights: Metres;
  /** Elevation of the last turning point less that of the start. */
  readonly rise: Metres;
  readonly agrees: boolean;
  readonly work: Work;
};

/** A benchmark reached: what was measured there less what is known. */
export type Check = {
  readonly station: number;
  readonly known: Given;
  readonly misclosure: Worked<Metres>;
};

/** Why a loop cannot be reduced, and at which line. */
export type LoopProblem =
  | { readonly kind: 'too-few-shots'; readonly have: number }
  | {
      readonly kind:
        | 'no-start-elevation'
        | 'no-start-backsight'
        | 'foresight-at-start'
        | 'no-foresight'
        | 'ends-on-backsight';
      readonly order: number;
      readonly point: string;
    };

/** Sums of decimals agree within this. */
const ROUNDING = 1e-9;

/**
 * Elevations along a line of levels: the instrument stands at the elevation of
 * the point read back on plus that reading, and a point read forward on lies
 * that reading below it. (Differential levelling: C. D. Ghilani and P. R. Wolf,
 * Elementary surveying, ch. 5, value from memory.)
 *
 * The line closes on the last point whose elevation is known; the start, met
 * again by name, is known.
 */
export function levelLoop(shots: readonly Shot[]): Result<LevelLoop, LoopProblem> {
  const [start, ...rest] = shots;
  if (!start || rest.length === 0) return fail({ kind: 'too-few-shots', have: shots.length });
  const problem = problemWith(start, rest);
  if (problem) return fail(problem);

  const stations: Station[] = [startOf(start)];
  let [from, back] = [stations[0], start.backsight];
  let [backsights, foresights] = [0, 0];
  for (const [i, shot] of rest.entries()) {
    const { foresight, backsight, point, order } = shot;
    if (!from || !back || !foresight) continue; // refused above
    const isTurning = backsight !== null || i === rest.length - 1;
    const leg = from.run === null || shot.distance === null ? null : from.run + shot.distance;
    const station: Station = {
      order,
      point,
      kind: isTurning ? 'turning' : 'side',
      elevation: elevationOf(point, from, back, foresight),
      setUps: from.setUps + 1,
      run: leg === null ? null : metres(leg),
    };
    stations.push(station);
    if (!isTurning) continue;
    backsights += back.value;
    foresights += foresight.value;
    [from, back] = [station, backsight];
  }

  const last = from ?? startOf(start);
  return ok({
    stations,
    setUps: last.setUps,
    length: last.run,
    page: pageCheck(stations, last, metres(backsights), metres(foresights)),
    checks: checksOf(stations, shots),
  });
}

function problemWith(start: Shot, rest: readonly Shot[]): LoopProblem | null {
  const at = ({ order, point }: Shot) => ({ order, point });
  if (!start.known) return { kind: 'no-start-elevation', ...at(start) };
  if (start.foresight) return { kind: 'foresight-at-start', ...at(start) };
  if (!start.backsight) return { kind: 'no-start-backsight', ...at(start) };
  const unread = rest.find(({ foresight }) => !foresight);
  if (unread) return { kind: 'no-foresight', ...at(unread) };
  const last = rest.at(-1);
  return last?.backsight ? { kind: 'ends-on-backsight', ...at(last) } : null;
}

function startOf({ order, point, known }: Shot): Station {
  const value = known?.value ?? metres(NaN); // refused before
  const elevation = lengthWorked(
    `Elevation of ${point}, known`,
    'elevation',
    'known',
    value,
    known ? [['known', `elevation of ${point}`, known]] : [],
  );
  return { order, point, kind: 'start', elevation, setUps: 0, run: metres(0) };
}

const elevationOf = (point: string, from: Station, back: Given, fore: Given): Worked<Metres> =>
  lengthWorked(
    `Elevation of ${point}, as measured`,
    'elevation',
    'from + backsight - foresight',
    from.elevation.value + back.value - fore.value,
    [
      ['from', `elevation of ${from.point}`, workedOut(from.elevation)],
      ['backsight', `rod on ${from.point}, read back`, back],
      ['foresight', `rod on ${point}, read forward`, fore],
    ],
  );

function pageCheck(
  stations: readonly Station[],
  last: Station,
  backsights: Metres,
  foresights: Metres,
): PageCheck {
  const first = stations[0]?.elevation.value ?? metres(NaN);
  const rise = metres(last.elevation.value - first);
  const sum = (symbol: string, name: string, value: Metres) => ({
    symbol,
    name,
    value,
    dimension: 'length' as const,
    from: { kind: 'citation' as const, text: 'sum of the column, turning points alone' },
  });
  return {
    backsights,
    foresights,
    rise,
    agrees: Math.abs(backsights - foresights - rise) <= ROUNDING,
    work: {
      title: 'Page check: backsights less foresights are last less first',
      symbol: 'rise',
      formula: 'sumback - sumfore',
      terms: [
        sum('sumback', 'sum of backsights', backsights),
        sum('sumfore', 'sum of foresights', foresights),
      ],
      answer: { value: rise, dimension: 'length' },
      decimals: last.elevation.work.decimals,
      note: 'It proves the adding up, not the readings.',
      table: {
        columns: [
          { name: 'Point', dimension: 'text' },
          { name: 'Elevation as measured', dimension: 'length' },
        ],
        rows: stations.map(({ point, elevation }) => [point, elevation.value]),
      },
    },
  };
}

function checksOf(stations: readonly Station[], shots: readonly Shot[]): Check[] {
  const start = shots[0];
  return stations.flatMap((station, i): Check[] => {
    if (i === 0) return [];
    const known = shots[i]?.known ?? (station.point === start?.point ? start.known : null);
    if (!known) return [];
    const misclosure = lengthWorked(
      `Misclosure at ${station.point}`,
      'misclosure',
      'measured - known',
      station.elevation.value - known.value,
      [
        ['measured', `elevation of ${station.point} as measured`, workedOut(station.elevation)],
        ['known', `elevation of ${station.point} as known`, known],
      ],
    );
    return [{ station: i, known, misclosure }];
  });
}

/** The check the loop closes on: its last; null for an open line, which nothing checks. */
export const closureOf = ({ checks }: LevelLoop): Check | null => checks.at(-1) ?? null;
