import {
  inUnits,
  inVolumeUnits,
  litres,
  metres,
  type LengthUnit,
  type Litres,
  type Metres,
} from '../units';
import type { Remark } from './remark';
import type { Attempt, Location } from '../site/schema';
import type { Settings } from '../site/settings';
import type { Edit } from '../site/edits/apply';
import { sealingVolume } from '../layout/volumes';
import type { FieldPoint } from './field-points';
import { isClosed } from './field-points';
import { rowOf, type Typed } from './typed';

/** The suffix of the next hole: none for the first, then A, B, C. */
export function nextSuffix(attempts: readonly Attempt[]): string {
  if (attempts.length === 0) return '';
  const used = new Set(attempts.map(({ suffix }) => (suffix ?? '').toUpperCase()));
  for (let code = 65; code <= 90; code++)
    if (!used.has(String.fromCharCode(code))) return String.fromCharCode(code);
  return '';
}

export const holeName = (location: string, suffix: string | null) =>
  suffix === null || suffix === '' ? location : `${location}, hole ${suffix}`;

/** Cells of one row written anew; the row as a spreadsheet counts it. */
export const cellsOf = (row: { readonly row: number }, texts: Typed) =>
  Object.entries(texts).map(([column, text]) => ({ row: row.row - 2, column, text }));

/** The location's status after a hole: reached once is pushed, and only ending short is refused. */
const statusAfter = (point: FieldPoint, outcome: string): Location['status'] =>
  outcome === 'reached' || point.attempts.some((attempt) => attempt.outcome === 'reached')
    ? 'pushed'
    : 'refused';

/**
 * A hole put down, and what it makes of its location. A hole that reached its
 * depth with no offset stands at its stake: the staked coordinates become those
 * as pushed, where none are recorded.
 */
export function holeEdit(point: FieldPoint, typed: Typed): Edit {
  const { location } = point;
  const row = rowOf({ ...typed, location: location.id });
  const { planned_easting: east, planned_northing: north } = location;
  const isAtStake = row.outcome === 'reached' && row.offset === undefined;
  const place: Typed =
    isAtStake && !location.easting && !location.northing && east && north
      ? { easting: east.text, northing: north.text }
      : {};
  const cells = cellsOf(location, { status: statusAfter(point, row.outcome ?? ''), ...place });
  return {
    kind: 'together',
    edits: [
      { kind: 'add-rows', table: 'attempts', rows: [row] },
      { kind: 'write-cells', table: 'locations', cells },
    ],
  };
}

/**
 * Volume a hole takes: its own round volume to its depth, and a share more for
 * what the ground takes. Null without a depth or a diameter.
 */
export const volumeToFill = (
  diameter: Metres | null,
  depth: Metres | null,
  extra: number,
): Litres | null =>
  diameter === null || depth === null || !(diameter > 0) || !(depth > 0)
    ? null
    : sealingVolume(diameter, depth, extra);

export type Placed = 'less than the hole holds' | 'far more than the hole holds' | 'about right';

/** Twice what a hole holds points to a cavity or loss to the ground. Common practice, no source. */
const FAR_MORE = 2;

/** How the volume placed stands to the hole's own, which it must at least fill. */
const placedAgainst = (placed: Litres, hole: Litres): Placed =>
  placed < hole * (1 - 1e-9)
    ? 'less than the hole holds'
    : placed > hole * FAR_MORE
      ? 'far more than the hole holds'
      : 'about right';

/** A hole's diameter in millimetres where the site is in metres, else in inches. */
export const inBore = (diameter: Metres, unit: LengthUnit): number =>
  unit === 'm' ? diameter * 1000 : inUnits(diameter, 'ft') * 12;

export const fromBore = (amount: number, unit: LengthUnit): Metres =>
  unit === 'm' ? metres(amount / 1000) : metres(amount / 12, 'ft');

/** What the volume placed says of the hole; null while either is not known. */
export function fillRemark(
  placed: number | null,
  holds: Litres | null,
  settings: Settings,
): Remark | null {
  if (placed === null || holds === null) return null;
  const how = placedAgainst(litres(placed, settings.volumeUnit), holds);
  const hole = `${volumeCell(holds, settings)} ${settings.volumeUnit}`;
  switch (how) {
    case 'less than the hole holds':
      return {
        against: true,
        says: `Less than the hole holds, ${hole}: it may have bridged. Sound it before you leave.`,
      };
    case 'far more than the hole holds':
      return {
        against: true,
        says: `More than twice what the hole holds, ${hole}: the ground takes it, or the volume is misread.`,
      };
    case 'about right':
      return { against: false, says: `At least what the hole holds, ${hole}.` };
  }
}

/** A volume as a cell is written, in the site's unit. */
export const volumeCell = (volume: Litres, settings: Settings) =>
  inVolumeUnits(volume, settings.volumeUnit).toFixed(settings.volumeUnit === 'gal' ? 2 : 1);

/**
 * A hole closed, or the reason why not. With the last one of its location the
 * location is decommissioned and its screens are pulled.
 *
 * @param calculated  the hole's own volume in the site's unit; blank where it is not known
 */
export function closeEdit(
  point: FieldPoint,
  hole: Attempt,
  typed: Typed,
  time: string,
  calculated = '',
): Edit {
  const texts = rowOf({ ...typed, decommission_calculated: calculated });
  const edits: Edit[] = [{ kind: 'write-cells', table: 'attempts', cells: cellsOf(hole, texts) }];
  const others = point.attempts.filter(({ row }) => row !== hole.row);
  if (texts.open_reason === undefined && others.every(isClosed)) {
    const status = others.concat(hole).some(({ outcome }) => outcome === 'reached')
      ? 'decommissioned'
      : 'refused';
    const cells = cellsOf(point.location, { status });
    edits.push({ kind: 'write-cells', table: 'locations', cells });
    const standing = point.screens.filter(
      ({ tip_depth, pulled_time }) => tip_depth !== null && pulled_time === null,
    );
    if (standing.length > 0)
      edits.push({
        kind: 'write-cells',
        table: 'screens',
        cells: standing.flatMap((screen) => cellsOf(screen, { pulled_time: time })),
      });
  }
  return { kind: 'together', edits };
}

/** Why a hole is not yet closed by what is typed; null when it is. */
export function notClosed(typed: Typed): string | null {
  const row = rowOf(typed);
  if (row.open_reason !== undefined) return null;
  const missing = [
    row.decommission_material === undefined ? 'material' : '',
    row.decommission_volume === undefined ? 'volume placed' : '',
    row.decommission_how === undefined ? 'how it was placed' : '',
    row.decommission_by === undefined ? 'who filled it' : '',
    row.decommission_day === undefined ? 'day' : '',
  ].filter((word) => word !== '');
  return missing.length === 0
    ? null
    : `Still needed: ${missing.join(', ')}; or the reason why the hole stays open.`;
}
