import type { LngLat } from '../grid';
import { fixed, lengthNumber, unitText } from '../show';
import type { Site } from '../site/site';
import {
  inVolumeUnits,
  type LengthUnit,
  type Litres,
  type Metres,
  type VolumeUnit,
} from '../units';
import { clearedOn, clearedWords } from './cleared';
import type { Clearance } from './clearance';
import type { PlannedPoint } from './field-plan';
import { containerLines } from './crew-kit';
import { intervalWords } from './interval-words';
import { inGrid, shiftNoted } from './layout-words';
import type { Equipment, PushRow } from './push-sheet';

/** A sheet as rows of words, for paper and for a file; every heading says its unit. */
export type SheetTable = {
  readonly columns: readonly {
    readonly name: string;
    /** Blank where there is none: names, words. */
    readonly unit: string;
    readonly isNumber: boolean;
  }[];
  readonly rows: readonly (readonly string[])[];
};

export type SheetUnits = {
  readonly vertical: LengthUnit;
  readonly grid: LengthUnit;
  readonly volume: VolumeUnit;
};

const column = (name: string, unit = '', isNumber = unit !== '') => ({ name, unit, isNumber });

/** Said where there is no number; the sheet never has a hole in it. */
const NONE = 'not known';

/** The push sheet: what to do at each point and what to bring. */
export function pushTable(
  rows: readonly PushRow[],
  { containers }: Equipment,
  { vertical, volume }: SheetUnits,
): SheetTable {
  const v = unitText(vertical);
  const depth = (of: Metres | null | undefined) =>
    of === null || of === undefined ? NONE : lengthNumber(of, vertical);
  const amount = (of: Litres | null, decimals = 2) =>
    of === null ? NONE : fixed(inVolumeUnits(of, volume), decimals);
  const columns = [
    column('Point'),
    column('Hand-cleared to', '', false),
    column('Drive tip to', `${v} below ground`),
    column('Hold screen base at', `${v} below ground`),
    column('Pull back', v),
    column('Open interval, depth', `${v} below ground`),
    column('Open interval, elevation', v),
    column('Water expected at', `${v} below ground`),
    column('Rods', 'number'),
    column('Tubing', v),
    column('In tubing', volume),
    column('In screen', volume),
    column('Minimum purge', volume),
    column('Sample and containers'),
    column('Seal with', volume),
  ];
  return {
    columns,
    rows: rows.map((row) => {
      const { interval } = row;
      const name = row.point.location.id;
      const hand = row.cleared?.handCleared ?? 'not recorded';
      const through = row.through.map((source) => `Pushed through ${source}`);
      const moved = shiftNoted(row.point.location.note).map((shift) => `stake ${shift}`);
      if (row.screen === null) {
        const last = ['no screen set', row.noScreen, ...moved, ...through].join('; ');
        return [name, hand, ...columns.slice(2, -2).map(() => '—'), last, '—'];
      }
      const three = interval?.ok ? interval.value.depth : null;
      const high =
        interval?.ok && interval.value.elevation.ok ? interval.value.elevation.value : null;
      const water = depth(row.depthToWater);
      return [
        name,
        hand,
        depth(row.tip),
        interval && !interval.ok
          ? intervalWords(interval.problem, vertical)
          : depth(three?.base.value),
        depth(row.pullBack),
        three ? `${depth(three.top.value)} to ${depth(three.base.value)}` : NONE,
        high ? `${depth(high.top.value)} to ${depth(high.base.value)}` : NONE,
        row.pastSuction ? `${water}, past suction lift` : water,
        row.rods ? String(row.rods.rods) : NONE,
        depth(row.tubing?.length),
        amount(row.tubing?.volume ?? null),
        amount(row.screenVolume),
        amount(row.purge),
        [
          row.sample === null ? NONE : row.sample,
          ...containerLines(containers).map(({ analytes, container }) =>
            analytes === '' ? container : `${analytes}: ${container}`,
          ),
          ...(row.duplicate ? ['and a field duplicate'] : []),
          ...(row.spike ? ['and MS and MSD: twice more of each'] : []),
          ...moved,
          ...through,
        ].join('; '),
        amount(row.sealing, 1),
      ];
    }),
  };
}

/** The stake-out list: where each point is, how its ground is known, what is drawn near it, whether it is cleared. */
export function stakeTable(
  points: readonly { readonly point: PlannedPoint; readonly near: readonly Clearance[] }[],
  site: Site,
  day: string,
  { vertical, grid }: SheetUnits,
  lngLat: (at: readonly [number, number]) => LngLat | null,
): SheetTable {
  const g = unitText(grid);
  const once = groundSaidOnce(points.map(({ point }) => point));
  return {
    columns: [
      column('Point'),
      column('Easting', g),
      column('Northing', g),
      column('Latitude', '° north, WGS 84'),
      column('Longitude', '° east, minus is west, WGS 84'),
      column('Ground elevation', unitText(vertical)),
      column('Ground is'),
      column('Nearest drawn'),
      column('Shifted'),
      column('Clearance'),
    ],
    rows: points.map(({ point, near: [nearest] }) => {
      const { location, at, ground } = point;
      const place = lngLat(at);
      return [
        location.id,
        at[0].toFixed(2),
        at[1].toFixed(2),
        place ? place[1].toFixed(7) : 'local grid',
        place ? place[0].toFixed(7) : 'local grid',
        ground.ok ? lengthNumber(ground.value.elevation.value, vertical) : NONE,
        groundWords(point, grid, once),
        nearest ? clearanceWords(nearest, grid) : 'nothing drawn',
        shiftNoted(location.note).join('; ') || 'no',
        clearedWords(clearedOn(site, location.id), day),
      ];
    }),
  };
}

/** Why the ground is not known, where that is one reason for several points and so is said once; else null. */
export function groundSaidOnce(points: readonly PlannedPoint[]): string | null {
  const reasons = points.flatMap(({ ground }) => (ground.ok ? [] : [ground.problem]));
  return reasons.length > 1 && new Set(reasons).size === 1 ? (reasons[0] ?? null) : null;
}

/**
 * How the ground is known: "estimated, MW-3 is 45.0 ft off".
 *
 * @param once  a reason that is said elsewhere already
 */
export function groundWords(
  { ground }: PlannedPoint,
  grid: LengthUnit,
  once: string | null = null,
): string {
  if (!ground.ok) return ground.problem === once ? NONE : ground.problem;
  const { how, nearest } = ground.value;
  return nearest
    ? `${how}; ${nearest.id}, ${inGrid(nearest.distance, grid)} off, is surveyed`
    : how;
}

/** "utility Gas main, 12.4 ft off, asks 5.0 ft". */
export function clearanceWords(
  { of, distance, buffer, verdict }: Clearance,
  grid: LengthUnit,
): string {
  const what = `${of.kind} ${of.name}`;
  switch (verdict) {
    case 'inside':
      return `in ${what}`;
    case 'outside':
      return `outside ${what} by ${inGrid(distance, grid)}`;
    case 'within buffer':
      return `${what}, ${inGrid(distance, grid)} off: too near, asks ${inGrid(buffer ?? 0, grid)}`;
    case 'clear':
      return `${what}, ${inGrid(distance, grid)} off, asks ${inGrid(buffer ?? 0, grid)}`;
    case 'no buffer':
      return `${what}, ${inGrid(distance, grid)} off, no distance given`;
  }
}

/** A sheet for a file: headings with their units, minus signs a program can read. */
export const tableText = ({ columns, rows }: SheetTable) => ({
  columns: columns.map(({ name, unit }) => (unit === '' ? name : `${name} (${unit})`)),
  rows: rows.map((row) => row.map((text) => text.replaceAll('−', '-'))),
});

/** A sheet with something that holds for all of it in columns of its own, for a file that has no heading. */
export const withColumns = (
  { columns, rows }: SheetTable,
  same: Readonly<Record<string, string>>,
): SheetTable => ({
  columns: [...columns, ...Object.keys(same).map((name) => column(name))],
  rows: rows.map((row) => [...row, ...Object.values(same)]),
});
