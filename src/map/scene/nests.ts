import { groupBy } from '../../domain/group';
import { LINES } from '../look/look';
import {
  samePlace,
  type Item,
  type Place,
  type Scene,
  type Side,
  type SymbolItem,
  type TextItem,
} from './scene';

/** The next well of a nest is no farther off than this, metres of the grid. Common practice, no source. */
const NEST = 6;

/** px left free between the symbols of a nest. */
const GAP = 3;

type Well = SymbolItem & { readonly who: string };
/** Which of a nest's rows a well stands in. */
type Row = 'top' | 'between' | 'bottom';
type Moved = { readonly from: Place; readonly to: Place; readonly row: Row };

/** Sides on which words stand in one line with their own well or away from the others, not beside another. */
const SIDES: Readonly<Record<Row, readonly Side[]>> = {
  top: ['e', 'w', 'ne', 'nw', 'n'],
  between: ['e', 'w'],
  bottom: ['e', 'w', 'se', 'sw', 's'],
};

/**
 * A scene in which wells of a nest whose symbols would lie over one another
 * stand one under the other about their middle, the shallowest on top, with all
 * that belongs to them, and tied by a line. Points that are only crowded, being
 * no nest, stay at their places.
 *
 * @param scale  metres in a px
 * @param magnify  what a painter multiplies sizes by
 * @param depthOf  how deep a well is, by its `who`, metres
 */
export function nestsApart(
  scene: Scene,
  scale: number,
  magnify: number,
  depthOf: (who: string) => number,
): Scene {
  const wells = scene.filter(isWell);
  const byWho = groupBy(
    scene.filter((item) => item.kind === 'symbol'),
    ({ who }) => who,
  );
  const moved = new Map<string, Moved>();
  const ties = nestsOf(wells, scale, magnify).map((nest): Item => {
    const stack = nest.toSorted((a, b) => depthOf(a.who) - depthOf(b.who));
    const places = standing(
      stack.map((well) => reachOf(byWho.get(well.who) ?? [])),
      middleOf(stack),
      scale * magnify,
    );
    stack.forEach(({ who, at }, i) => {
      const row = i === 0 ? 'top' : i === stack.length - 1 ? 'bottom' : 'between';
      moved.set(who, { from: at, to: places[i] ?? at, row });
    });
    return {
      kind: 'line',
      layer: 'stake-offsets',
      path: [places[0] ?? [0, 0], places.at(-1) ?? [0, 0]],
      weight: LINES.medium,
      colour: 'ink',
      means: 'Wells of one nest, drawn apart',
    };
  });
  if (ties.length === 0) return scene;
  return [...scene.map((item) => carried(item, moved)), ...ties];
}

const isWell = (item: Item): item is Well =>
  item.kind === 'symbol' && item.layer === 'points' && item.who !== undefined;

/** Wells whose symbols lie over one another, nest by nest. */
function nestsOf(wells: readonly Well[], scale: number, magnify: number): Well[][] {
  const square = (metres: number) => Math.floor(metres / NEST);
  const squares = groupBy(wells, ({ at: [e, n] }) => `${square(e)},${square(n)}`);
  const near = ({ at: [e, n] }: Well) =>
    [-1, 0, 1].flatMap((i) =>
      [-1, 0, 1].flatMap((j) => squares.get(`${square(e) + i},${square(n) + j}`) ?? []),
    );
  const meets = (a: Well, b: Well) => {
    const apart = Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]);
    return apart <= NEST && apart / scale < ((a.size + b.size) / 2) * magnify;
  };
  const seen = new Set<Well>();
  const withAll = (well: Well): Well[] => {
    if (seen.has(well)) return [];
    seen.add(well);
    return [well, ...near(well).flatMap((other) => (meets(well, other) ? withAll(other) : []))];
  };
  return wells.map(withAll).filter((nest) => nest.length > 1);
}

const middleOf = (wells: readonly Well[]): Place => [
  wells.reduce((sum, { at }) => sum + at[0], 0) / wells.length,
  wells.reduce((sum, { at }) => sum + at[1], 0) / wells.length,
];

/** px that the symbols of one well reach over and under its place. */
type Reach = { readonly over: number; readonly under: number };

const reachOf = (symbols: readonly Item[]): Reach => {
  const boxes = symbols.flatMap((item) =>
    item.kind === 'symbol' ? [{ half: item.size / 2, down: item.offset?.[1] ?? 0 }] : [],
  );
  return {
    over: Math.max(0, ...boxes.map(({ half, down }) => half - down)),
    under: Math.max(0, ...boxes.map(({ half, down }) => half + down)),
  };
};

/** Places one under the other about a middle, each clear of the one over it. */
function standing(reaches: readonly Reach[], [east, north]: Place, metresInPx: number): Place[] {
  let down = 0;
  const downs = reaches.map(({ over, under }, i) => {
    const here = i === 0 ? 0 : down + GAP + over;
    down = here + under;
    return here;
  });
  const half = (downs.at(-1) ?? 0) / 2;
  return downs.map((one) => [east, north + (half - one) * metresInPx]);
}

/** The sides of a name or a level on which nobody takes it for that of another well of the nest. */
function inItsRow({ layer, sides }: TextItem, row: Row): readonly Side[] {
  if (layer !== 'point-labels' && layer !== 'posted-heads') return sides;
  const kept = sides.filter((side) => SIDES[row].includes(side));
  return kept.length > 0 ? kept : ['e', 'w'];
}

/** An item with its well where that has moved to. */
function carried(item: Item, moved: ReadonlyMap<string, Moved>): Item {
  const move = item.who === undefined ? undefined : moved.get(item.who);
  if (!move) return item;
  const there = (at: Place) => (samePlace(at, move.from) ? move.to : at);
  switch (item.kind) {
    case 'text':
      return { ...item, at: there(item.at), sides: inItsRow(item, move.row) };
    case 'symbol':
    case 'bar':
      return { ...item, at: there(item.at) };
    case 'line':
      return { ...item, path: item.path.map(there) };
    default:
      return item;
  }
}
