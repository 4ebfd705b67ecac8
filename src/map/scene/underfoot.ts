import { whereInArea } from '../../domain/geometry/inside';
import { stretches } from './along';
import { grown, meet, within, type Box } from './place-labels';
import { magnified, plainly, type PlainItem } from './plain';
import type { Place, Scene, SymbolItem } from './scene';

/** Right and down in a window, px. */
type Spot = readonly [x: number, y: number];

/** A line that words had better not stand on, and how much worse they are read there. */
type Edge = { readonly of: number; readonly from: Spot; readonly to: Spot };
type Symbol = { readonly of: number; readonly box: Box; readonly point: string | undefined };
type Hatched = { readonly of: number; readonly ring: readonly Spot[]; readonly around: Box };

/** Side of the squares that lines are filed under, px. */
const SQUARE = 96;

/** How ill words are read over a symbol, which covers them. */
const COVERED = 4;

/** How much worse words are read over a line: over one with numbers of its own they are taken for its number. */
const WORSE: Readonly<Partial<Record<PlainItem['layer'], number>>> = {
  contours: 3,
  arrow: 4,
  construction: 3,
  'keep-clear': 0,
  graticule: 0,
  pictures: 0,
};

/** What lies under the words of a map: its lines, ground that is hatched, and symbols, which lie over them. */
export class Underfoot {
  readonly #window: Box;
  readonly #edges = new Map<string, Edge[]>();
  readonly #symbols = new Map<string, Symbol[]>();
  readonly #hatched: Hatched[] = [];
  readonly #worse: number[] = [];

  /** @param px  from the grid to px of the window */
  constructor(scene: Scene, px: (place: Place) => Spot, window: Box, magnify: number) {
    this.#window = window;
    for (const item of scene)
      for (const part of plainly(item)) this.#file(magnified(part, magnify), px);
  }

  #file(item: PlainItem, px: (place: Place) => Spot): void {
    if (item.kind === 'symbol')
      return this.#fileSymbol(
        boxAround(item, px),
        item.layer === 'points' || item.layer === 'verdicts' ? item.who : undefined,
      );
    const worse = WORSE[item.layer] ?? 1;
    if (worse === 0 || (item.kind !== 'line' && item.kind !== 'area')) return;
    const of = this.#worse.push(item.kind === 'area' && item.hatch ? 2 : worse) - 1;
    const lines = item.kind === 'line' ? [item.path] : item.polygons.flat();
    for (const line of lines) {
      const spots = line.map(px);
      const around = aroundAll(spots);
      if (!overlap(around, this.#window)) continue;
      for (const [from, to] of stretches(spots)) this.#fileEdge({ of, from, to });
      if (item.kind === 'area' && item.hatch) this.#hatched.push({ of, ring: spots, around });
    }
  }

  #fileSymbol(box: Box, point: string | undefined) {
    if (!overlap(box, this.#window)) return;
    const of = this.#worse.push(COVERED) - 1;
    for (const name of squares(box)) push(this.#symbols, name, { of, box, point });
  }

  #fileEdge(edge: Edge) {
    const within = clipped(edge, this.#window);
    if (within) for (const name of squares(aroundAll(within))) push(this.#edges, name, edge);
  }

  /** How ill words in a box would be read; 0 on free paper. */
  cost(box: Box): number {
    const under = new Set<number>();
    for (const name of squares(box)) {
      for (const symbol of this.#symbols.get(name) ?? [])
        if (meet(symbol.box, box)) under.add(symbol.of);
      for (const edge of this.#edges.get(name) ?? [])
        if (!under.has(edge.of) && clipped(edge, box)) under.add(edge.of);
    }
    const middle: Spot = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
    for (const { of, ring, around } of this.#hatched)
      if (!under.has(of) && overlap(around, box) && whereInArea([ring], middle) === 'inside')
        under.add(of);
    return [...under].reduce((sum, of) => sum + (this.#worse[of] ?? 0), 0);
  }

  /**
   * Whether words in a box stand so near the symbols of another point than
   * theirs that they are taken for its name: close to them anywhere, in one
   * line with them, or straight over or under them.
   */
  isBesideAnother(box: Box, who: string, px: number): boolean {
    const close = grown(box, px / 3);
    const inLine = grown(box, px, (box.top - box.bottom) / 4);
    const inColumn = grown(box, 0, px);
    const isTaken = (symbol: Box) =>
      meet(symbol, close) || meet(symbol, inLine) || within(middleOf(symbol), inColumn);
    for (const name of squares(grown(box, px)))
      for (const { point, box: symbol } of this.#symbols.get(name) ?? [])
        if (point !== undefined && point !== who && isTaken(symbol)) return true;
    return false;
  }
}

const middleOf = ({ left, top, right, bottom }: Box): Box => {
  const [x, y] = [(left + right) / 2, (top + bottom) / 2];
  return { left: x, right: x, top: y, bottom: y };
};

/** The box of a symbol in a window, its size and offset as drawn. */
export function boxAround(
  { at, size, offset: [right, down] = [0, 0] }: SymbolItem,
  px: (place: Place) => Spot,
): Box {
  const [x, y] = px(at);
  const half = size / 2;
  return {
    left: x + right - half,
    right: x + right + half,
    top: y + down - half,
    bottom: y + down + half,
  };
}

function push<Key, One>(lists: Map<Key, One[]>, key: Key, one: One) {
  const list = lists.get(key);
  if (list) list.push(one);
  else lists.set(key, [one]);
}

const overlap = (a: Box, b: Box) =>
  a.left <= b.right && b.left <= a.right && a.top <= b.bottom && b.top <= a.bottom;

function aroundAll(spots: readonly Spot[]): Box {
  const [xs, ys] = [spots.map(([x]) => x), spots.map(([, y]) => y)];
  return {
    left: Math.min(...xs),
    right: Math.max(...xs),
    top: Math.min(...ys),
    bottom: Math.max(...ys),
  };
}

function* squares({ left, top, right, bottom }: Box): Iterable<string> {
  for (let i = Math.floor(left / SQUARE); i <= Math.floor(right / SQUARE); i++)
    for (let j = Math.floor(top / SQUARE); j <= Math.floor(bottom / SQUARE); j++) yield `${i},${j}`;
}

/** The part of a line within a box, by Liang and Barsky (1984); null where there is none. */
export function clipped(
  { from, to }: Pick<Edge, 'from' | 'to'>,
  { left, top, right, bottom }: Box,
): readonly [Spot, Spot] | null {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  let [first, last] = [0, 1];
  for (const [into, room] of [
    [-dx, from[0] - left],
    [dx, right - from[0]],
    [-dy, from[1] - top],
    [dy, bottom - from[1]],
  ] as const) {
    if (into === 0) {
      if (room < 0) return null;
      continue;
    }
    const at = room / into;
    if (into < 0) first = Math.max(first, at);
    else last = Math.min(last, at);
    if (first > last) return null;
  }
  const spot = (at: number): Spot => [from[0] + at * dx, from[1] + at * dy];
  return [spot(first), spot(last)];
}
