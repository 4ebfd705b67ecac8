import { isPastSuction, SUCTION_LIFT } from '../layout/volumes';
import { counted } from '../findings/words';
import { fixed, length, unitText } from '../show';
import type { Edit } from '../site/edits/apply';
import type { WaterLevel } from '../site/schema';
import type { Site } from '../site/site';
import {
  levelState,
  minutesBetween,
  TAPE_LIMIT,
  tapeAgrees,
  type LevelReading,
  type LevelState,
  type StaticRule,
} from '../survey/static-level';
import { inUnits, metres, type LengthUnit, type Metres } from '../units';
import { markNow, typedLength } from './as-pushed';
import { isPushPoint } from './gauging';
import { roundEdits } from './rounds';
import { rowOf, type Typed } from './typed';

/** Readings of a screen in a round, in the order of time; those without a time are left out. */
export const readingsOf = (site: Site, screen: string, event: string): readonly WaterLevel[] =>
  site.waterLevels
    .filter((reading) => reading.screen === screen && reading.event === event && reading.time)
    .toSorted((a, b) => (a.time ?? '').localeCompare(b.time ?? ''));

/** Depths of readings from one mark, by minutes since the first of them. A new mark starts anew. */
export function depthsInTime(readings: readonly WaterLevel[]): readonly LevelReading[] {
  const mark = readings.at(-1)?.measuring_point ?? null;
  const same = readings.filter((r) => (r.measuring_point ?? null) === mark);
  const first = same.find(({ depth_to_water }) => depth_to_water)?.time;
  if (!first) return [];
  return same.flatMap(({ time, depth_to_water }) => {
    const minutes = time === null ? null : minutesBetween(first, time);
    return minutes === null || !depth_to_water ? [] : [{ minutes, depth: depth_to_water.value }];
  });
}

/**
 * What a level is called after its last reading: at rest by the rule, else still
 * recovering. Water in a well has stood there for long: it is static until
 * readings show that it moves (common practice, no source).
 */
const statusBy = (state: LevelState, isWell = false): 'static' | 'recovering' =>
  state.kind === 'static' || (isWell && (state.kind === 'too few' || state.kind === 'too short'))
    ? 'static'
    : 'recovering';

/** Rate in the site's unit: "0.02 ft in 15 min". */
const rateWords = (change: Metres, minutes: number, unit: LengthUnit) =>
  `${length(change, unit, unit === 'm' ? 3 : 2)} in ${fixed(minutes, 0)} min`;

export const ruleWords = ({ change, minutes }: StaticRule, unit: LengthUnit) =>
  `Static is less than ${rateWords(change, minutes, unit)}`;

/** How the level stands, in a sentence. */
export function stateWords(state: LevelState, rule: StaticRule, unit: LengthUnit): string {
  switch (state.kind) {
    case 'too few':
      return state.have === 0
        ? 'No reading yet.'
        : `One reading. Read again to check the tape, then watch for ${rule.minutes} min.`;
    case 'too short':
      return `Watched ${fixed(state.minutes, 0)} min of ${fixed(state.need, 0)} min: keep watching.`;
    case 'static':
      return `Static: ${rateWords(state.change, state.minutes, unit)}.`;
    case 'rising':
      return `Still rising: ${rateWords(state.change, state.minutes, unit)}. Keep watching.`;
    case 'falling':
      return `Still falling: ${rateWords(state.change, state.minutes, unit)}. Keep watching.`;
    case 'unsteady':
      return `Unsteady, up and down ${rateWords(state.change, state.minutes, unit)}. Keep watching.`;
  }
}

/** What the last two readings say of the tape; null with fewer than two. */
export function tapeWords(readings: readonly LevelReading[], unit: LengthUnit): string | null {
  const [before, last] = readings.slice(-2);
  if (!before || !last) return null;
  const apart = length(metres(Math.abs(last.depth - before.depth)), unit, unit === 'm' ? 3 : 2);
  const limit = length(TAPE_LIMIT, unit, unit === 'm' ? 3 : 2);
  return tapeAgrees(before.depth, last.depth)
    ? `The last two readings agree, ${apart} apart (limit ${limit}). That checks the tape, not rest.`
    : `The last two readings are ${apart} apart, over ${limit}: the water moves or the tape was misread.`;
}

/** Water too deep for a pump at the surface, in a sentence; null where it is not. */
export const suctionWords = (depth: Metres | null, unit: LengthUnit): string | null =>
  depth !== null && isPastSuction(depth)
    ? `Deeper than ${length(SUCTION_LIFT, unit, unit === 'm' ? 1 : 0)}: a pump at the surface will not lift it (common practice).`
    : null;

/** Minutes from opening the screen to its first water, and to rest; null where not known. */
export function timeToFill(
  setTime: string | null,
  readings: readonly WaterLevel[],
): { readonly water: number | null; readonly rest: number | null } {
  const since = (found: WaterLevel | undefined) =>
    setTime === null || !found?.time ? null : minutesBetween(setTime, found.time);
  return {
    water: since(readings.find(({ depth_to_water }) => depth_to_water)),
    rest: since(readings.find(({ status }) => status === 'static')),
  };
}

export const minutesWords = (minutes: number | null) =>
  minutes === null ? 'not known' : counted(Math.round(minutes), 'minute');

/** Rise of the water since its first reading, up positive, in a unit: the points of a recovery chart. */
export const recoveryPoints = (
  readings: readonly LevelReading[],
  unit: LengthUnit,
): readonly (readonly [minutes: number, rise: number])[] =>
  readings.map(({ minutes, depth }) => [
    minutes,
    inUnits(metres((readings[0]?.depth ?? depth) - depth), unit),
  ]);

export const riseLabel = (unit: LengthUnit) => `rise since the first reading, ${unitText(unit)}`;

/** What a person says of the water beside its depth. */
export type Seen = 'water' | 'dry' | 'obstructed' | 'flowing' | 'pumping';

/** The status a reading gets: as seen, and of standing water by the rule over all readings. */
function statusWith(
  readings: readonly WaterLevel[],
  seen: Seen,
  depth: string,
  time: string,
  mark: string | null,
  unit: LengthUnit,
  rule: StaticRule,
  isWell = false,
): WaterLevel['status'] {
  if (seen !== 'water') return seen;
  const typed = typedLength(depth, unit);
  const same = readings.filter((r) => (r.measuring_point ?? null) === mark && r.depth_to_water);
  const first = same[0]?.time ?? time;
  const all = [...same.map((r) => [r.time, r.depth_to_water?.value] as const)];
  const inTime = [...all, [time, typed?.value] as const].flatMap(([at, value]) => {
    const minutes = at === null ? null : minutesBetween(first, at);
    return minutes === null || value === undefined ? [] : [{ minutes, depth: value }];
  });
  return statusBy(levelState(inTime, rule), isWell);
}

/** A reading of the water, with the mark it was read from, in a round that takes in its day. */
export function waterEdit(
  site: Site,
  screen: string,
  round: string,
  typed: Typed,
  seen: Seen,
  rule: StaticRule,
): Edit {
  const row = rowOf(typed);
  const time = row.time ?? '';
  const mark = markNow(site, screen)?.id ?? null;
  const status = statusWith(
    readingsOf(site, screen, round),
    seen,
    row.depth_to_water ?? '',
    time,
    mark,
    site.settings.verticalUnit,
    rule,
    !isPushPoint(site, screen),
  );
  const { depth_to_water, ...rest } = row;
  const depth = seen === 'dry' || seen === 'obstructed' ? {} : { depth_to_water };
  return {
    kind: 'together',
    edits: [
      ...roundEdits(site, round, time.slice(0, 10)),
      {
        kind: 'add-rows',
        table: 'water_levels',
        rows: [
          rowOf({
            ...rest,
            depth_to_water: depth.depth_to_water ?? '',
            screen,
            event: round,
            measuring_point: mark ?? '',
            status,
          }),
        ],
      },
    ],
  };
}
