import type { EastNorth, Grid } from '../../domain/grid';
import { placingSentence } from '../../domain/local-placing';
import { residualText } from '../../domain/local-words';
import { placeImage, type PlacedImage } from '../../domain/picture-place';
import { fail, ok, type Result } from '../../domain/result';
import { fixed } from '../../domain/show';
import type { ImageMark, ImageSize, ImageType, Picture } from '../../domain/site/pictures';
import { decimal } from '../../domain/site/read-cell';
import { knownPlace, waysToGive, type GivenAs } from './known-place';

/** A mark while it is picked or typed: dots from the picture's upper left, and its known place. */
export type PictureMarkDraft = {
  readonly name: string;
  readonly dots: readonly [string, string];
  readonly known: readonly [string, string];
};

const NAMES = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
const blank = (n: number): PictureMarkDraft => ({
  name: NAMES[n] ?? `mark ${n + 1}`,
  dots: ['', ''],
  known: ['', ''],
});

const isFull = (pair: readonly [string, string]) => pair.every((text) => text.trim() !== '');
const isBlank = ({ dots, known }: PictureMarkDraft) =>
  [...dots, ...known].every((text) => text.trim() === '');

/** A picture while it is being placed by marks. */
export class PictureDraft {
  title = $state('');
  marks: readonly PictureMarkDraft[] = $state.raw([blank(0)]);
  /** The mark that the next press on the picture or the map is for. */
  inHand = $state(0);
  given = $state<GivenAs>('grid');
  opacity = $state(0.7);

  readonly bytes: Uint8Array;
  readonly type: ImageType;
  readonly size: ImageSize;
  /** The picture it is already; null for a new one. */
  readonly before: Picture | null;
  readonly #grid: () => Grid;

  constructor(
    image: { readonly title: string; readonly bytes: Uint8Array; readonly type: ImageType; readonly size: ImageSize }, // prettier-ignore
    grid: () => Grid,
    before: Picture | null = null,
  ) {
    this.bytes = image.bytes;
    this.type = image.type;
    this.size = image.size;
    this.title = image.title;
    this.before = before;
    this.#grid = grid;
    if (!before) return;
    this.opacity = before.opacity;
    this.marks = before.marks.map(({ name, dots, grid: known }) => ({
      name,
      dots: [String(dots[0]), String(dots[1])],
      known: [String(known[0]), String(known[1])],
    }));
  }

  readonly ways = $derived.by(() => waysToGive(this.#grid()));

  readonly #read: Result<readonly ImageMark[], string> = $derived.by(() => {
    const read: ImageMark[] = [];
    for (const mark of this.marks) {
      if (isBlank(mark)) continue;
      const [right, down] = mark.dots.map((text) => decimal(text.trim()));
      if (typeof right !== 'number' || typeof down !== 'number')
        return fail(`${mark.name}: press on the picture, or type its dots from the upper left.`);
      if (!isFull(mark.known)) return fail(`${mark.name}: give its place on the ground.`);
      const known = knownPlace(this.#grid(), this.given, mark.known);
      if (!known.ok) return fail(`${mark.name}: ${known.problem}.`);
      read.push({ name: mark.name, dots: [right, down], grid: known.value });
    }
    return ok(read);
  });

  /** Where it lies by its marks so far; or what is wanting. */
  readonly placed: Result<PlacedImage, string> = $derived.by(() => {
    if (!this.#read.ok) return this.#read;
    const placed = placeImage(this.size, this.#read.value, this.#grid().unit);
    return placed.ok ? placed : fail(placingSentence(placed.problem));
  });

  /** What is left of each mark typed after the fit, in the grid's unit. */
  readonly residuals: readonly string[] = $derived.by(() => {
    const { unit } = this.#grid();
    const left = this.placed.ok ? [...this.placed.value.fit.residuals] : [];
    return this.marks.map((mark) => {
      const own = isBlank(mark) ? undefined : left.shift();
      return own ? residualText(own.distance, unit) : '';
    });
  });

  /** How well it lies, in sentences. */
  readonly words: readonly string[] = $derived.by(() => {
    if (!this.placed.ok) return [];
    const { unit } = this.#grid();
    const { tie, standardError, mirrored, residuals } = this.placed.value.fit;
    const dot = residualText(tie.scale as never, unit);
    return [
      `A dot of the picture is ${dot} on the ground; straight up in it is azimuth ${fixed(((tie.rotation % 360) + 360) % 360, 2)}° from grid north.`, // prettier-ignore
      standardError === null
        ? 'Two marks leave nothing to check by: the residuals are nought whatever was pressed. Give a third.'
        : `Standard error of a coordinate ${residualText(standardError, unit)}; the largest residual is ${residualText(Math.max(...residuals.map(({ distance }) => distance)) as never, unit)}.`,
      ...(mirrored
        ? ['The marks fit far better mirrored: two of them are probably exchanged.']
        : []),
    ];
  });

  /** The picture as it would be kept under a path. */
  picture(path: string): Picture | null {
    if (!this.#read.ok || !this.placed.ok) return null;
    const { title, type, size, opacity } = this;
    const shown = this.before?.shown ?? true;
    return { path, title: title.trim() || path, type, size, marks: this.#read.value, opacity, shown }; // prettier-ignore
  }

  write(at: number, change: Partial<PictureMarkDraft>) {
    this.marks = this.marks.map((mark, i) => (i === at ? { ...mark, ...change } : mark));
  }

  /** Pressed on the picture: the mark in hand is there; one that is complete makes way for the next. */
  press(right: number, down: number) {
    const mark = this.marks[this.inHand];
    if (!mark || (isFull(mark.dots) && isFull(mark.known))) this.add();
    const text = (n: number) => String(Number(n.toFixed(1)));
    this.write(this.inHand, { dots: [text(right), text(down)] });
  }

  /** Its known place, in the unit of the grid. */
  know([easting, northing]: EastNorth) {
    const { unit } = this.#grid();
    const text = (n: number) => n.toFixed(unit === 'm' ? 3 : 2);
    this.write(this.inHand, { known: [text(easting), text(northing)] });
  }

  add = () => {
    this.marks = [...this.marks, blank(this.marks.length)];
    this.inHand = this.marks.length - 1;
  };

  remove(at: number) {
    this.marks = this.marks.length > 1 ? this.marks.filter((_, i) => i !== at) : [blank(0)];
    this.inHand = Math.min(this.inHand, this.marks.length - 1);
  }
}
