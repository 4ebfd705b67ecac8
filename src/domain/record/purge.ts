import { fixed } from '../show';
import type { Edit } from '../site/edits/apply';
import type { Row } from '../site/schema';
import type { Site } from '../site/site';
import type {
  CriteriaSet,
  Parameter,
  ParameterState,
  PurgeOutcome,
  PurgeReading,
  Stabilisation,
} from '../survey/stabilisation';
import { minutesBetween } from '../survey/static-level';
import { PARAMETERS, parameterUnit } from './criteria';
import { cellsOf } from './holes';
import { roundEdits } from './rounds';
import { rowOf, type Typed } from './typed';

export type PurgeRow = Row<'purge_readings'>;

/** Readings of a purge, in the order of time. */
export const purgeOf = (site: Site, screen: string, event: string): readonly PurgeRow[] =>
  site.purgeReadings
    .filter((reading) => reading.screen === screen && reading.event === event)
    .toSorted((a, b) => a.time.localeCompare(b.time));

/** Readings as the criteria compare them, by minutes since the first. */
export function purgeInTime(rows: readonly PurgeRow[]): readonly PurgeReading[] {
  const first = rows[0]?.time ?? '';
  return rows.flatMap((row) => {
    const minutes = minutesBetween(first, row.time);
    if (minutes === null) return [];
    const values = PARAMETERS.map((parameter) => [parameter, row[parameter]?.value ?? null]);
    return [{ minutes, ...(Object.fromEntries(values) as Record<Parameter, number | null>) }];
  });
}

/**
 * Minutes and litres pumped, each rate taken to hold from its reading to the
 * next. Litres are null where a rate is missing.
 */
export function purgedSoFar(rows: readonly PurgeRow[]): {
  readonly minutes: number;
  readonly litres: number | null;
} {
  let [minutes, millilitres]: [number, number | null] = [0, 0];
  for (const [i, row] of rows.entries()) {
    const before = rows[i - 1];
    if (!before) continue;
    const lapse = minutesBetween(before.time, row.time) ?? 0;
    minutes += lapse;
    millilitres =
      millilitres === null || !before.rate ? null : millilitres + before.rate.value * lapse;
  }
  return { minutes, litres: millilitres === null ? null : millilitres / 1000 };
}

/** What the last readings of one parameter are. */
export function parameterWords({ parameter, state, apart, allowed }: ParameterState): string {
  if (state === 'not read' || apart === null || allowed === null) return 'not read every time';
  const unit = parameterUnit(parameter);
  const decimals = allowed < 1 ? 2 : 1;
  return `${state}: ${fixed(apart, decimals)} of ${fixed(allowed, decimals)} ${unit} allowed`;
}

export const VERDICTS: Readonly<Record<Stabilisation['verdict'], string>> = {
  stable: 'Stable by these criteria.',
  changing: 'Still changing.',
  'too few readings': 'Too few readings yet.',
  'too close together': 'The readings agree, but are too close together in time.',
  'not all read': 'Not every parameter of the set was read.',
};

export const OUTCOMES: Readonly<Record<PurgeOutcome, string>> = {
  'ready to sample': 'Ready to sample.',
  'keep purging': 'Keep purging.',
  'did not clear':
    'Did not clear within the limit. Sample it as it is, and say so; or leave it and come back.',
};

/** Turbidity from first to last, against what is called clear; null where it was not read. */
export function clearingWords(rows: readonly PurgeRow[], aim: number): string | null {
  const read = rows.flatMap(({ turbidity }) => (turbidity ? [turbidity] : []));
  const [first, last] = [read[0], read.at(-1)];
  if (!first || !last) return null;
  const clear = last.value <= aim;
  const way =
    read.length < 2
      ? ''
      : last.value < first.value
        ? `, down from ${first.text} NTU`
        : `, not lower than the first, ${first.text} NTU`;
  return `Turbidity ${last.text} NTU${way}: ${clear ? 'clear' : 'not clear'}, ${aim} NTU is called clear.`;
}

/** A reading of a purge, in a round that takes in its day. */
export function purgeEdit(site: Site, screen: string, round: string, typed: Typed): Edit {
  const row = rowOf({ ...typed, screen, event: round });
  return {
    kind: 'together',
    edits: [
      ...roundEdits(site, round, (row.time ?? '').slice(0, 10)),
      { kind: 'add-rows', table: 'purge_readings', rows: [row] },
    ],
  };
}

/** How a purge ended and by which criteria, on its last reading. */
export const purgeEndEdit = (
  last: PurgeRow,
  outcome: Exclude<PurgeOutcome, 'keep purging'>,
  set: CriteriaSet,
): Edit => ({
  kind: 'write-cells',
  table: 'purge_readings',
  cells: cellsOf(last, {
    outcome: outcome === 'ready to sample' ? 'stable' : outcome,
    criteria: set.name,
  }),
});

/** What a purge came to: for the record of a sample. Null of what was not read. */
export type Purged = {
  readonly minutes: number;
  readonly litres: number | null;
  readonly turbidity: string | null;
  readonly outcome: PurgeRow['outcome'];
  readonly criteria: string | null;
};

/** What there is to say before bottles are filled: still turbid, or not purged to its end. Null when neither. */
export function turbidWords(purged: Purged | null, clearAt: number): string | null {
  if (!purged || purged.turbidity === null) return 'No turbidity was read before this sample.';
  const over = Number(purged.turbidity) > clearAt;
  if (!over) return null;
  return `Turbidity is ${purged.turbidity} NTU, over ${clearAt} NTU: total metals and what clings to particles will read high. Purge on, or filter, or say so in the remark.`;
}

export function purgedOf(rows: readonly PurgeRow[]): Purged | null {
  const last = rows.at(-1);
  if (!last) return null;
  return {
    ...purgedSoFar(rows),
    turbidity: rows.findLast(({ turbidity }) => turbidity)?.turbidity?.text ?? null,
    outcome: last.outcome,
    criteria: last.criteria,
  };
}
