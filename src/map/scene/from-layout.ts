import type { HidingPlaces } from '../../domain/layout/as-laid';
import { COULD_HIDE } from '../../domain/layout/as-laid';
import type { Form } from '../../domain/layout/drawing';
import type { Stake } from '../../domain/layout/stakes';
import { metres, type LengthUnit } from '../../domain/units';
import { LINES, SIZES } from '../look/look';
import type { AreaItem, Item, Place, TextItem } from './scene';

/** A feature being drawn; places in metres. */
export type DraftOnMap = {
  readonly form: Form;
  readonly corners: readonly Place[];
  /** Where the next corner would go. */
  readonly pointer: Place | null;
  /** What the pointer holds on to, in words: "corner". */
  readonly snapped: string | null;
  /** Said at the pointer: the length of the leg. */
  readonly says: string | null;
};

/** The outline so far, a rubber band to the pointer, a handle on every corner. */
export function draftItems({ form, corners, pointer, snapped, says }: DraftOnMap): Item[] {
  const ring =
    form === 'area' && corners.length > 2 ? [...corners, ...corners.slice(0, 1)] : corners;
  const last = corners.at(-1);
  const first = corners[0];
  const band = pointer && last && form !== 'point' ? [last, pointer] : null;
  const closing =
    pointer && form === 'area' && first && corners.length > 1 ? [pointer, first] : null;
  const line = { kind: 'line', layer: 'draft', colour: 'ink', weight: LINES.medium } as const;
  return [
    ...(ring.length > 1 ? [{ ...line, path: ring, means: 'Being drawn' }] : []),
    ...(band ? [{ ...line, path: band, dash: 'dashed' as const }] : []),
    ...(closing ? [{ ...line, path: closing, dash: 'dotted' as const, weight: LINES.thin }] : []),
    ...corners.map((at) => handle(at, 14)),
    ...(pointer && snapped ? [handle(pointer, 22)] : []),
    ...(pointer && says ? [words(pointer, snapped ? `${says}, on a ${snapped}` : says)] : []),
  ];
}

const handle = (at: Place, size: number): Item => ({
  kind: 'symbol',
  layer: 'draft',
  at,
  shape: 'selection',
  size,
  colour: 'ink',
});

const words = (at: Place, text: string): TextItem => ({
  kind: 'text',
  layer: 'captions',
  at,
  text,
  sides: ['ne', 'nw', 'se', 'sw'],
  away: 10,
  size: SIZES.note,
  face: 'semibold',
  colour: 'ink',
  priority: 0,
  always: true,
});

/** A stake of a layout being tried; places in metres. */
export type StakeOnMap = {
  readonly at: Place;
  readonly blocked: boolean;
  /** Where it was shifted from; null where it was not. */
  readonly from: Place | null;
  /** The name it would have; null where it has none. */
  readonly name: string | null;
};

/**
 * Stakes in metres.
 *
 * @param unit    the grid's unit, that stakes are in
 * @param nameOf  what it would be called; null where it has no name
 */
export function stakesOnMap(
  stakes: readonly Stake[],
  unit: LengthUnit,
  nameOf: (stake: Stake) => string | null = () => null,
): StakeOnMap[] {
  const place = ([e, n]: Place): Place => [metres(e, unit), metres(n, unit)];
  return stakes.map((stake) => ({
    at: place(stake.at),
    blocked: stake.blocks.length > 0,
    from: stake.shift && place(stake.shift.from),
    name: nameOf(stake),
  }));
}

/** More names than this can't be read on a map and are left out. */
const MOST_NAMES = 200;

/** A layout being tried: clear stakes, blocked ones crossed, shifts with the way they went. */
export function layoutItems(stakes: readonly StakeOnMap[]): Item[] {
  const named = stakes.length <= MOST_NAMES;
  return stakes.flatMap(({ at, blocked, from, name }): Item[] => [
    ...(from
      ? [
          {
            kind: 'line',
            layer: 'stake-offsets',
            path: [from, at],
            weight: LINES.medium,
            colour: 'ink',
            dash: 'dotted',
            means: 'Shifted from there to a clear place',
          } as const,
        ]
      : []),
    blocked
      ? {
          kind: 'symbol',
          layer: 'draft',
          at,
          shape: 'cross',
          turned: 45,
          size: 16,
          colour: 'signal',
          means: 'Blocked: not laid until shifted',
        }
      : {
          kind: 'symbol',
          layer: 'draft',
          at,
          shape: 'direct push, planned',
          size: 15,
          colour: 'water',
          means: 'Would be laid',
        },
    ...(named && name !== null ? [nameItem(at, name)] : []),
  ]);
}

const nameItem = (at: Place, text: string): TextItem => ({
  kind: 'text',
  layer: 'point-labels',
  at,
  text,
  sides: ['e', 'w', 'n', 's'],
  away: 11,
  size: SIZES.fine,
  face: 'regular',
  colour: 'water',
  priority: 6,
});

/**
 * Ground where a target could lie with no point in it: squares run together
 * along each row.
 *
 * @param toMetres  from the grid's unit
 */
export function hidingItems(hiding: HidingPlaces, toMetres: (n: number) => number): AreaItem[] {
  const { corner, side, columns, rows, squares } = hiding;
  const polygons: Place[][][] = [];
  const at = (column: number, row: number): Place => [
    toMetres(corner[0] + column * side),
    toMetres(corner[1] + row * side),
  ];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      if (squares[row * columns + column] !== COULD_HIDE) continue;
      const first = column;
      while (column + 1 < columns && squares[row * columns + column + 1] === COULD_HIDE) column++;
      const [west, east] = [first, column + 1];
      polygons.push([
        [at(west, row), at(east, row), at(east, row + 1), at(west, row + 1), at(west, row)],
      ]);
    }
  if (polygons.length === 0) return [];
  return [
    {
      kind: 'area',
      layer: 'hiding-places',
      polygons,
      hatch: { pattern: 'diagonal', colour: 'signal' },
      means: 'A target could hide with its middle here',
    },
  ];
}
