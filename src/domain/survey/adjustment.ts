import { workedOut, type Given } from '../layout/given';
import { fail, ok, type Result } from '../result';
import { metres, type Metres } from '../units';
import type { Term, Worked } from '../work';
import { closureOf, type LevelLoop, type Station } from './level-loop';

/** What the misclosure is shared out by. */
export type SharedBy = 'set-ups' | 'distance';

export type AdjustedStation = {
  readonly point: string;
  readonly elevation: Worked<Metres>;
  /** Added to the measured elevation. */
  readonly correction: Metres;
};

export type NoAdjustment =
  | { readonly kind: 'open' } // no known elevation to close on
  | { readonly kind: 'no-distance' } // a leg was not measured
  | { readonly kind: 'misclosure-exceeds'; readonly misclosure: Metres; readonly limit: Metres };

const ROUNDING = 1e-9;

/**
 * Elevations with the misclosure shared out along the line: the correction at a
 * point is −misclosure × (set-ups or length to it) ÷ (set-ups or length to the
 * closing point). A side shot shares the correction its set-up leads to. A
 * misclosure over the limit is a mistake and is not shared out.
 *
 * @param limit  allowable misclosure; null where nobody can say, such as legs not measured
 * @returns stations in the order of the loop, the start unchanged
 */
export function adjusted(
  loop: LevelLoop,
  by: SharedBy,
  limit: Metres | null,
): Result<readonly AdjustedStation[], NoAdjustment> {
  const closure = closureOf(loop);
  const close = closure && loop.stations[closure.station];
  if (!closure || !close) return fail({ kind: 'open' });
  const misclosure = closure.misclosure.value;
  if (limit !== null && Math.abs(misclosure) > limit + ROUNDING)
    return fail({ kind: 'misclosure-exceeds', misclosure, limit });
  const whole = by === 'set-ups' ? close.setUps : close.run;
  if (whole === null || !(whole > 0)) return fail({ kind: 'no-distance' });

  const stations: AdjustedStation[] = [];
  for (const station of loop.stations) {
    const part = by === 'set-ups' ? station.setUps : partOf(station, loop);
    if (part === null) return fail({ kind: 'no-distance' });
    // Past the closing point there is nothing more to share out.
    stations.push(shareOf(station, closure.misclosure, Math.min(part, whole), whole, by));
  }
  return ok(stations);
}

/** A side shot is corrected as the turning point its set-up leads to. */
function partOf(station: Station, { stations }: LevelLoop): Metres | null {
  if (station.kind !== 'side') return station.run;
  const next = stations.find(({ kind, setUps }) => kind === 'turning' && setUps === station.setUps);
  return next ? next.run : station.run;
}

function shareOf(
  { point, kind, elevation }: Station,
  misclosure: Worked<Metres>,
  part: number,
  whole: number,
  by: SharedBy,
): AdjustedStation {
  if (kind === 'start') return { point, elevation, correction: metres(0) };
  const correction = metres(0 - (misclosure.value * part) / whole);
  const value = metres(elevation.value + correction);
  const length = (symbol: string, name: string, given: Given): Term => ({
    symbol,
    name,
    dimension: 'length',
    ...given,
  });
  const share = (symbol: string, name: string, of: number): Term => ({
    symbol,
    name,
    value: of,
    dimension: by === 'set-ups' ? 'number' : 'length',
    from: { kind: 'citation', text: 'the level book' },
  });
  return {
    point,
    correction,
    elevation: {
      value,
      work: {
        title: `Elevation of ${point}, adjusted by ${by}`,
        symbol: 'adjusted',
        formula: 'measured - misclosure * part / whole',
        terms: [
          length('measured', `elevation of ${point} as measured`, workedOut(elevation)),
          length('misclosure', 'misclosure of the loop', workedOut(misclosure)),
          share('part', `${by} to ${point}`, part),
          share('whole', `${by} to the closing point`, whole),
        ],
        answer: { value, dimension: 'length' },
        decimals: elevation.work.decimals,
      },
    },
  };
}
