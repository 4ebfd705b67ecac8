import { LAYERS } from './layers';
import type { Side, TextItem } from './scene';
import { CAPITAL, LEADING, TAIL, textWidth } from './text-width';

/** px, y down. */
export type Box = {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
};

/** Words and the px of the place they belong to. */
export type Label = { readonly item: TextItem; readonly x: number; readonly y: number };

export type PlacedLabel = Label & {
  readonly box: Box;
  readonly side: Side;
  /** px further off than it would rather be. */
  readonly further: number;
};

/** Which way a side lies from its place: −1, 0, 1 to the right and down. */
const LIES: Readonly<Record<Side, readonly [right: number, down: number]>> = {
  centre: [0, 0],
  n: [0, -1],
  ne: [1, -1],
  e: [1, 0],
  se: [1, 1],
  s: [0, 1],
  sw: [-1, 1],
  w: [-1, 0],
  nw: [-1, -1],
};

/** Of how far words stand to one side, what they stand right and down of it on the diagonal. */
const DIAGONAL = { right: 0.85, down: 0.55 };

/** px right and down of its place at which words on a side begin; less far on the diagonal. */
export function stand(side: Side, away: number): readonly [right: number, down: number] {
  const [right, down] = LIES[side];
  const isDiagonal = right !== 0 && down !== 0;
  return isDiagonal
    ? [right * away * DIAGONAL.right, down * away * DIAGONAL.down]
    : [right * away, down * away];
}

/** Side of a mark before words, in their size. */
export const MARK = 0.9;

/** Room for a mark before each line of words, px: its own width and a gap. */
export const markRoom = (item: TextItem) => (item.mark ? item.size * (MARK + 0.15) : 0);

/** Width and height of words as set, without halo, px. */
export function sizeOf(item: TextItem): readonly [width: number, height: number] {
  const lines = item.text.split('\n').length;
  return [
    markRoom(item) + textWidth(item.text, item.size, item.face),
    item.size * (CAPITAL + TAIL + (lines - 1) * LEADING),
  ];
}

/** The px that words on a side of their place take, so many px further off than they would rather be. */
export function boxOf({ item, x, y }: Label, side: Side, further = 0): Box {
  const [width, height] = sizeOf(item);
  const [right, down] = LIES[side];
  const [dx, dy] = stand(side, item.away + further);
  // Middle of the words from their place, turned with them.
  const [mx, my] = [dx + (right * width) / 2, dy + (down * height) / 2];
  const angle = ((item.turned ?? 0) * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const [cx, cy] = [x + mx * cos - my * sin, y + mx * sin + my * cos];
  const half = [
    (Math.abs(width * cos) + Math.abs(height * sin)) / 2,
    (Math.abs(width * sin) + Math.abs(height * cos)) / 2,
  ] as const;
  return { left: cx - half[0], right: cx + half[0], top: cy - half[1], bottom: cy + half[1] };
}

export const meet = (a: Box, b: Box) =>
  a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;

/** A box with so many px around it. */
export const grown = ({ left, top, right, bottom }: Box, x: number, y = x): Box => ({
  left: left - x,
  top: top - y,
  right: right + x,
  bottom: bottom + y,
});

export const within = (box: Box, window: Box) =>
  box.left >= window.left &&
  box.right <= window.right &&
  box.top >= window.top &&
  box.bottom <= window.bottom;

/** Side of the squares that boxes are filed under, px. */
const SQUARE = 64;

/** Boxes filed by where they lie, so that thousands can be asked quickly. */
class Taken {
  readonly #squares = new Map<string, Set<Box>>();

  *#under({ left, top, right, bottom }: Box): Iterable<string> {
    for (let i = Math.floor(left / SQUARE); i <= Math.floor(right / SQUARE); i++)
      for (let j = Math.floor(top / SQUARE); j <= Math.floor(bottom / SQUARE); j++)
        yield `${i},${j}`;
  }

  add(box: Box) {
    for (const square of this.#under(box)) {
      const boxes = this.#squares.get(square);
      if (boxes) boxes.add(box);
      else this.#squares.set(square, new Set([box]));
    }
  }

  remove(box: Box) {
    for (const square of this.#under(box)) this.#squares.get(square)?.delete(box);
  }

  /** What a box meets of those that are taken. */
  under(box: Box): ReadonlySet<Box> {
    const met = new Set<Box>();
    for (const square of this.#under(box))
      for (const other of this.#squares.get(square) ?? []) if (meet(other, box)) met.add(other);
    return met;
  }
}

type Room = Pick<PlacedLabel, 'side' | 'box' | 'further'>;

/** Sides and px further off that words may stand at, best first: near their place before further off. */
export const standsOf = ({ sides, further = [], stands }: TextItem) =>
  stands ?? [0, ...further].flatMap((more) => sides.map((side) => ({ side, further: more })));

/** The places of words, best first. */
function* roomsOf(label: Label): Iterable<Room> {
  for (const { side, further } of standsOf(label.item))
    yield { side, box: boxOf(label, side, further), further };
}

/** px between words of different things, at least. */
const APART = 1.5;

/** Words being placed in a window, those of the layers before in their places for good. */
class Placing {
  readonly #taken = new Taken();
  readonly #window: Box;
  readonly #placed = new Map<Box, PlacedLabel>();
  #layer: TextItem['layer'] | null = null;

  constructor(shapes: readonly Box[], window: Box) {
    this.#window = window;
    for (const shape of shapes) this.#taken.add(shape);
  }

  get placed(): PlacedLabel[] {
    return [...this.#placed.values()];
  }

  /** Words to their first free place, or to one that others of their layer can leave for another. */
  place(label: Label) {
    this.#layer = label.item.layer;
    const rooms = [...roomsOf(label)].filter(({ box }) => within(box, this.#window));
    const [first] = roomsOf(label);
    const free = rooms.find(({ box }) => this.#taken.under(box).size === 0);
    if (free) this.#put(label, free);
    else if (!this.#displace(label, rooms) && label.item.always && first) this.#put(label, first);
  }

  #put(label: Label, room: Room) {
    const held = grown(room.box, APART);
    this.#taken.add(held);
    this.#placed.set(held, { ...label, ...room });
  }

  #displace(label: Label, rooms: readonly Room[]): boolean {
    for (const room of rooms) {
      const [box, ...more] = this.#taken.under(room.box);
      const other = box && this.#placed.get(box);
      if (!box || !other || more.length > 0 || other.item.layer !== this.#layer) continue;
      this.#taken.remove(box);
      const elsewhere = [...roomsOf(other)].find(
        (there) =>
          within(there.box, this.#window) &&
          !meet(there.box, grown(room.box, APART)) &&
          this.#taken.under(there.box).size === 0,
      );
      if (elsewhere) {
        this.#placed.delete(box);
        this.#put(other, elsewhere);
        this.#put(label, room);
        return true;
      }
      this.#taken.add(box);
    }
    return false;
  }
}

/**
 * Room for words: upper layers first, then by priority, then in the order given;
 * each on the first of its sides that is free of shapes and of words already
 * placed and is not cut by the edge of the window, near its place before further
 * off. Where none is free, words of the same layer make way that can stand
 * elsewhere as well. Words that still find no room are left out, unless they are
 * always drawn. Upper layers come first in what is returned.
 */
export function placeLabels(
  labels: readonly Label[],
  shapes: readonly Box[],
  window: Box,
): PlacedLabel[] {
  const rank = ({ item }: Label) => LAYERS.indexOf(item.layer);
  const placing = new Placing(shapes, window);
  for (const label of labels.toSorted(
    (a, b) => rank(b) - rank(a) || a.item.priority - b.item.priority,
  ))
    placing.place(label);
  return placing.placed;
}
