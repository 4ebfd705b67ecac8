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

/** px right and down of its place at which words on a side begin; less far on the diagonal. */
export function stand(side: Side, away: number): readonly [right: number, down: number] {
  const [right, down] = LIES[side];
  const reach = right !== 0 && down !== 0 ? away * 0.85 : away;
  return [right * reach, down * reach];
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

export const within = (box: Box, window: Box) =>
  box.left >= window.left &&
  box.right <= window.right &&
  box.top >= window.top &&
  box.bottom <= window.bottom;

/** Side of the squares that boxes are filed under, px. */
const SQUARE = 64;

/** Boxes filed by where they lie, so that thousands can be asked quickly. */
class Taken {
  readonly #squares = new Map<string, Box[]>();

  *#under({ left, top, right, bottom }: Box): Iterable<string> {
    for (let i = Math.floor(left / SQUARE); i <= Math.floor(right / SQUARE); i++)
      for (let j = Math.floor(top / SQUARE); j <= Math.floor(bottom / SQUARE); j++)
        yield `${i},${j}`;
  }

  add(box: Box) {
    for (const square of this.#under(box)) {
      const boxes = this.#squares.get(square);
      if (boxes) boxes.push(box);
      else this.#squares.set(square, [box]);
    }
  }

  meets(box: Box): boolean {
    for (const square of this.#under(box))
      if (this.#squares.get(square)?.some((other) => meet(box, other))) return true;
    return false;
  }
}

/** The first place of words that is free; the first of all for words always drawn; else null. */
function roomFor(label: Label, free: (box: Box) => boolean) {
  const { sides, further = [], always } = label.item;
  for (const more of [0, ...further])
    for (const side of sides) {
      const box = boxOf(label, side, more);
      if (free(box)) return { side, box };
    }
  const [side] = sides;
  return always && side ? { side, box: boxOf(label, side) } : null;
}

/**
 * Room for words, greedily: upper layers first, then by priority, then in the
 * order given; each on the first of its sides that is free of shapes and of
 * words already placed and is not cut by the edge of the window, near its place
 * before further off. Words that find
 * no room are left out, unless they are always drawn. Returned in the order they were placed.
 */
export function placeLabels(
  labels: readonly Label[],
  shapes: readonly Box[],
  window: Box,
): PlacedLabel[] {
  const taken = new Taken();
  for (const shape of shapes) taken.add(shape);
  const free = (box: Box) => within(box, window) && !taken.meets(box);
  const rank = ({ item }: Label) => LAYERS.indexOf(item.layer);
  const ordered = labels.toSorted((a, b) => rank(b) - rank(a) || a.item.priority - b.item.priority);
  return ordered.flatMap((label) => {
    const room = roomFor(label, free);
    if (!room) return [];
    taken.add(room.box);
    return [{ ...label, ...room }];
  });
}
