import { along } from '../geometry/compass';
import { clearedOn, NO_LONGER_CLEARED } from '../layout/cleared';
import type { Edit } from '../site/edits/apply';
import type { Location } from '../site/schema';
import type { Site } from '../site/site';
import { azimuth, inUnits, metres } from '../units';
import type { FieldPoint } from './field-points';
import { cellsOf } from './holes';
import { asWritten, rowOf, type Typed } from './typed';

/** A place in the grid, in metres: east, north. */
export type At = readonly [east: number, north: number];

/** Where a point is, or is to be; null where neither is known. */
export const standsAt = (location: Location): At | null => {
  const { easting, northing, planned_easting, planned_northing } = location;
  if (easting && northing) return [easting.value, northing.value];
  return planned_easting && planned_northing
    ? [planned_easting.value, planned_northing.value]
    : null;
};

/** The place so far from another, in the grid's unit along an azimuth from grid north. */
export function placeFrom(site: Site, from: At, distance: number, direction: number): At {
  const [east, north] = along(azimuth(direction));
  const far = metres(distance, site.settings.grid.unit);
  return [from[0] + far * east, from[1] + far * north];
}

const coordinate = (site: Site, value: number) =>
  inUnits(metres(value), site.settings.grid.unit).toFixed(2);

/** A point added in the field, by typed coordinates. */
export function addPointEdit(typed: Typed): Edit {
  const row = rowOf(typed);
  return {
    kind: 'add-rows',
    table: 'locations',
    rows: [{ note: 'Added in the field', ...row, kind: 'direct push', status: 'planned' }],
  };
}

/** Why a point cannot be added as typed; null when it can. */
export function notAddable(site: Site, typed: Typed): string | null {
  const { id, planned_easting: east, planned_northing: north } = rowOf(typed);
  if (id === undefined) return 'Still needed: a name.';
  if (site.locations.has(id)) return `There is a point ${id} already.`;
  return east === undefined || north === undefined ? 'Still needed: both coordinates.' : null;
}

const notedAlso = ({ note }: Location, words: string) =>
  [note ?? '', words].filter((text) => text !== '').join('; ');

/**
 * A point moved: where it stands changes, where it was staked stays on record,
 * and so does the reason. A clearance recorded for the old place is taken back.
 */
export function moveEdit(
  site: Site,
  location: Location,
  to: At,
  reason: string,
  { who, when }: { readonly who: string; readonly when: string },
): Edit {
  const words = `Moved in the field: ${reason.trim()}`;
  const [easting, northing] = [coordinate(site, to[0]), coordinate(site, to[1])];
  const write: Edit = {
    kind: 'write-cells',
    table: 'locations',
    cells: cellsOf(location, { easting, northing, note: notedAlso(location, words) }),
  };
  if (!clearedOn(site, location.id)) return write;
  const takenBack: Edit = {
    kind: 'decide',
    what: 'clear point',
    on: location.id,
    reason: `${NO_LONGER_CLEARED}: ${words}`,
    who,
    when,
  };
  return { kind: 'together', edits: [takenBack, write] };
}

/** Why a point cannot be dropped: something was done there. Null when it can. */
export const notDroppable = ({ location, attempts, steps }: FieldPoint): string | null =>
  attempts.length > 0 || steps.water === 'done' || steps.sample === 'done'
    ? `Something is recorded at ${location.id}: it stays. Close its holes instead.`
    : null;

/**
 * A planned point dropped: it stays in its table with the reason in its remark,
 * and who dropped it and when stand among the decisions.
 */
export function dropEdit(
  { location }: FieldPoint,
  reason: string,
  who: string,
  when: string,
): Edit {
  const words = `Dropped in the field: ${asWritten(reason)}`;
  return {
    kind: 'together',
    edits: [
      { kind: 'decide', what: 'comment', on: location.id, reason: words, who, when },
      {
        kind: 'write-cells',
        table: 'locations',
        cells: cellsOf(location, { status: 'dropped', note: notedAlso(location, words) }),
      },
    ],
  };
}

/** A dropped point taken up again; that it was dropped stays in its remark. */
export const takeUpEdit = ({ location }: FieldPoint, day: string): Edit => ({
  kind: 'write-cells',
  table: 'locations',
  cells: cellsOf(location, {
    status: 'planned',
    note: notedAlso(location, `Taken up again ${day}`),
  }),
});
