import type { Note } from '../domain/walk/figure-notes';
import { legendOf, SWATCH, type LegendEntry } from './scene/legend';
import type { Face, Scene } from './scene/scene';
import { textWidth } from './scene/text-width';

/** A line of words on the sheet; px at 96 to the inch from the upper left of the words' area. */
export type SheetLine = {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly size: number;
  readonly face: Face;
  readonly signal: boolean;
};

export type SheetSwatch = { readonly x: number; readonly y: number; readonly entry: LegendEntry };

export type SheetWords = {
  readonly lines: readonly SheetLine[];
  readonly swatches: readonly SheetSwatch[];
  /** Whether something found no room and was left off. */
  readonly cut: boolean;
};

/** Sizes of words on paper, px: 7.5 pt is the least that is read with ease. */
const MANNERS: Readonly<Record<Note['manner'], { size: number; face: Face; signal: boolean }>> = {
  stamp: { size: 13, face: 'semibold', signal: true },
  title: { size: 18, face: 'semibold', signal: false },
  strong: { size: 11.5, face: 'semibold', signal: false },
  plain: { size: 10, face: 'regular', signal: false },
};

/** How far apart words stand on a sheet: leading in sizes, px after a paragraph and after an entry of the legend. */
type Spacing = { readonly leading: number; readonly after: number; readonly entry: number };
const ROOMY: Spacing = { leading: 1.25, after: 3, entry: 1 };
/** Where some would be left off; swatches have a blank over and under them, which may overlap. */
const TIGHT: Spacing = { leading: 1.18, after: 1, entry: -2.2 };

/** Swatches of the legend, as a share of their size on the screen. */
export const SWATCH_SHARE = 0.62;

/** Words broken into lines no wider than so many px; a word wider than that stands alone. */
export function wrapped(text: string, width: number, size: number, face: Face): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter((w) => w !== '')) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(longer, size, face) <= width)
      lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

type Block =
  | { readonly kind: 'words'; readonly note: Note }
  | { readonly kind: 'entry'; readonly entry: LegendEntry };

/**
 * The words of a sheet in columns: what it shows, the legend made from what is
 * drawn, how it was made; nearer together where they would not all find room.
 * `room` is the width and height in px, `columns` how many.
 */
export function sheetWords(words: Words, room: Room): SheetWords {
  const roomy = setWords(words, room, ROOMY);
  return roomy.cut ? setWords(words, room, TIGHT) : roomy;
}

type Words = {
  readonly head: readonly Note[];
  readonly foot: readonly Note[];
  readonly scene: Scene;
};
type Room = { readonly width: number; readonly height: number; readonly columns: number };

function setWords(
  { head, foot, scene }: Words,
  { width, height, columns }: Room,
  { leading, after, entry: between }: Spacing,
): SheetWords {
  const GAP = 14;
  const wide = (width - GAP * (columns - 1)) / columns;
  const entries = legendOf(scene);
  const blocks: Block[] = [
    ...head.map((note): Block => ({ kind: 'words', note })),
    ...(entries.length > 0
      ? [{ kind: 'words', note: { manner: 'strong', text: 'Legend' } } as const]
      : []),
    ...entries.map((entry): Block => ({ kind: 'entry', entry })),
    ...foot.map((note): Block => ({ kind: 'words', note })),
  ];
  const lines: SheetLine[] = [];
  const swatches: SheetSwatch[] = [];
  let [column, y, cut] = [0, 0, false];
  /** The upper edge of so much room; null when every column is full. */
  const take = (high: number): { x: number; top: number } | null => {
    if (y + high > height && column < columns - 1) [column, y] = [column + 1, 0];
    if (y + high > height) {
      cut = true;
      return null;
    }
    const top = y;
    y += high;
    return { x: column * (wide + GAP), top };
  };
  for (const block of blocks) {
    if (block.kind === 'words') {
      const { size, face, signal } = MANNERS[block.note.manner];
      for (const text of wrapped(block.note.text, wide, size, face)) {
        const at = take(size * leading);
        if (at) lines.push({ x: at.x, y: at.top + size, text, size, face, signal });
      }
      y += after;
      continue;
    }
    const { size, face, signal } = MANNERS.plain;
    const indent = SWATCH.width * SWATCH_SHARE + 8;
    const said = wrapped(block.entry.means, wide - indent, size, face);
    const high = Math.max(SWATCH.height * SWATCH_SHARE, said.length * size * leading) + between;
    const at = take(high);
    if (!at) continue;
    swatches.push({ x: at.x, y: at.top + Math.min(0, between / 2), entry: block.entry });
    said.forEach((text, i) =>
      lines.push({
        x: at.x + indent,
        y: at.top + size * (1.05 + i * leading) + Math.min(0, between / 2),
        text,
        size,
        face,
        signal,
      }),
    );
  }
  return { lines, swatches, cut };
}
