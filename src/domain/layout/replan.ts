import type { Edit } from '../site/edits/apply';
import type { Location } from '../site/schema';
import type { Site } from '../site/site';
import { azimuthBetween, distanceBetween } from '../geometry/compass';
import type { XY } from '../geometry/shape';
import { inUnits, type LengthUnit } from '../units';
import { chanceAsLaid, type TriedChance } from './as-laid';
import { clearedOn, NO_LONGER_CLEARED } from './cleared';
import { insideOf } from './grids';
import type { GroundPlan } from './ground-plan';
import type { Target } from './hit-chance';
import { shiftWords } from './layout-words';
import { seeded } from './seeded';

/** A push point of the layout: where it is planned to stand, or stands. In the grid's unit. */
export type Standing = { readonly id: string; readonly at: XY };

/** Points that are given up stand for nothing. */
const GIVEN_UP: readonly Location['status'][] = ['dropped', 'refused'];

/** Where a location stands, else where it is planned; in the grid's unit. Null where neither is known. */
export function placeIn(location: Location, unit: LengthUnit): XY | null {
  const east = location.easting ?? location.planned_easting;
  const north = location.northing ?? location.planned_northing;
  return east && north ? [inUnits(east.value, unit), inUnits(north.value, unit)] : null;
}

/** The push points that remain of a layout, planned and pushed, in the order of their table. */
export const remainingPoints = ({ locations, settings }: Site): readonly Standing[] =>
  [...locations.values()].flatMap((location): Standing[] => {
    const at = placeIn(location, settings.grid.unit);
    const counts = location.kind === 'direct push' && !GIVEN_UP.includes(location.status);
    return counts && at ? [{ id: location.id, at }] : [];
  });

/** The layout with one point elsewhere; without it where `to` is null. */
export const without = (points: readonly Standing[], id: string, to: XY | null): Standing[] =>
  points.flatMap((point) => (point.id !== id ? [point] : to ? [{ id, at: to }] : []));

const TRIALS = 20_000;

/** Chance that the points hit a target within the boundary; null where no boundary is drawn. */
export function chanceOf(
  points: readonly Standing[],
  plan: GroundPlan,
  target: Target,
  seed: number,
): TriedChance | null {
  const inside = insideOf(plan);
  const places = points.map(({ at }) => at);
  return inside && chanceAsLaid(places, inside, target, TRIALS, seeded(seed));
}

const noted = (before: string | null, words: string) =>
  [before ?? '', words].filter((text) => text !== '').join('; ');

const cellsOf = ({ row }: Location, texts: Readonly<Record<string, string>>) =>
  Object.entries(texts).map(([column, text]) => ({ row: row - 2, column, text }));

/**
 * A planned point planned elsewhere, one step. How far it went, which way and
 * why is kept in its remark. What held for the old place no longer does: a
 * ground elevation surveyed there, and a clearance recorded for it.
 *
 * @param to   in the grid's unit
 * @returns null where it is not known where it was planned, or it does not move
 */
export function planElsewhere(
  site: Site,
  location: Location,
  to: XY,
  reason: string,
  { who, when }: { readonly who: string; readonly when: string },
): Edit | null {
  const { unit } = site.settings.grid;
  const from = placeIn(location, unit);
  const azimuth = from && azimuthBetween(from, to);
  if (!from || azimuth === null) return null;
  const moved = shiftWords({ from, to, distance: distanceBetween(from, to), azimuth }, unit);
  const [east, north] = [to[0].toFixed(2), to[1].toFixed(2)];
  const { ground_elevation: ground, ground_how: how } = location;
  const old = ground ? `; ground ${how ?? ''} at the old place: ${ground.text}` : '';
  const write: Edit = {
    kind: 'write-cells',
    table: 'locations',
    cells: cellsOf(location, {
      planned_easting: east,
      planned_northing: north,
      ...(location.easting || location.northing ? { easting: east, northing: north } : {}),
      ...(location.laid === null ? {} : { laid: '' }),
      ...(ground ? { ground_elevation: '', ground_how: 'none' } : {}),
      note: noted(location.note, `${moved}: ${reason.trim() || 'no reason given'}${old}`),
    }),
  };
  if (!clearedOn(site, location.id)) return write;
  const what = 'clear point';
  const words = `${NO_LONGER_CLEARED}: ${moved}`;
  return {
    kind: 'together',
    edits: [{ kind: 'decide', what, on: location.id, reason: words, who, when }, write],
  };
}

/** A planned point dropped from the layout: it stays in its table, with the reason. */
export function dropPlanned(location: Location, reason: string, who: string, when: string): Edit {
  const words = `Dropped: ${reason.trim()}`;
  const cells = cellsOf(location, { status: 'dropped', note: noted(location.note, words) });
  return {
    kind: 'together',
    edits: [
      { kind: 'decide', what: 'comment', on: location.id, reason: words, who, when },
      { kind: 'write-cells', table: 'locations', cells },
    ],
  };
}
