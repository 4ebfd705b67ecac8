import type { StyleImageMetadata } from 'maplibre-gl';
import { PALETTES, type Palette, type Role, type Theme } from '../look/look';
import { LINES } from '../look/look';
import type { Hatch } from '../scene/scene';
import { CASING, SYMBOLS, type SymbolName } from '../scene/symbols';
import { HATCH_SIDE, HATCHES } from '../scene/svg-parts';

/**
 * Pictures for the map, each made when it is first named. The name says all
 * there is to know: what, in which theme and colour, how large.
 */
type Picture =
  | { readonly kind: 'symbol'; readonly shape: SymbolName; readonly size: number }
  | { readonly kind: 'bar'; readonly width: number; readonly height: number }
  | {
      readonly kind: 'hatch';
      readonly pattern: Hatch;
      /** How much larger than drawn it will be shown. */
      readonly enlarged: number;
    }
  // Seen by labels only: it keeps them off a line.
  | { readonly kind: 'nothing' };

export type PictureName = string;

const names = new Map<string, PictureName>();

export function pictureName(picture: Picture, colour: Role, theme: Theme): PictureName {
  const short = `${Object.values(picture).join()} ${colour} ${theme}`;
  const before = names.get(short);
  if (before !== undefined) return before;
  const name = JSON.stringify([picture, colour, theme]);
  names.set(short, name);
  return name;
}

type Made = { readonly data: ImageData; readonly options: Partial<StyleImageMetadata> };

/** Units of the symbol's box left free on each side, for its casing. */
const MARGIN = 1;

/** Drawn finely enough for the screen it is on. */
const fineness = () => Math.max(2, Math.ceil(window.devicePixelRatio));

/** The picture a name asks for; null when the name is none of ours. */
export function picture(name: PictureName): Made | null {
  let asked: unknown;
  try {
    asked = JSON.parse(name);
  } catch {
    return null;
  }
  const [what, colour, theme] = asked as [Picture, Role, Theme];
  const palette: Palette = PALETTES[theme];
  switch (what.kind) {
    case 'symbol':
      return symbolPicture(what.shape, what.size, palette[colour], palette.paper);
    case 'bar':
      return barPicture(what.width, what.height, palette[colour], palette.paper);
    case 'hatch':
      return hatchPicture(what.pattern, palette[colour], what.enlarged);
    case 'nothing':
      return canvas(CLEAR, CLEAR).made();
  }
}

function canvas(width: number, height: number) {
  const ratio = fineness();
  const element = document.createElement('canvas');
  element.width = Math.ceil(width * ratio);
  element.height = Math.ceil(height * ratio);
  const context = element.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error('This browser draws no pictures on a canvas.');
  context.scale(ratio, ratio);
  context.lineJoin = 'round';
  return {
    context,
    made: (): Made => ({
      data: context.getImageData(0, 0, element.width, element.height),
      options: { pixelRatio: ratio },
    }),
  };
}

export function symbolPicture(shape: SymbolName, size: number, colour: string, ground: string) {
  const side = (size * (24 + 2 * MARGIN)) / 24;
  const { context, made } = canvas(side, side);
  context.scale(size / 24, size / 24);
  context.translate(MARGIN, MARGIN);
  const paints = { colour, ground };
  const parts = SYMBOLS[shape].map((part) => ({ ...part, path: new Path2D(part.d) }));
  for (const { path, stroke, width = 0 } of parts) {
    context.strokeStyle = ground;
    context.lineWidth = (stroke ? width : 0) + CASING;
    context.stroke(path);
  }
  for (const { path, fill, stroke, width = 0 } of parts) {
    if (fill) {
      context.fillStyle = paints[fill];
      context.fill(path);
    }
    if (stroke) {
      context.strokeStyle = paints[stroke];
      context.lineWidth = width;
      context.stroke(path);
    }
  }
  return made();
}

function barPicture(width: number, height: number, colour: string, ground: string) {
  const { context, made } = canvas(width + 2, height + 2);
  context.fillStyle = ground;
  context.fillRect(0, 0, width + 2, height + 2);
  context.fillStyle = colour;
  context.fillRect(1, 1, width, height);
  return made();
}

/** A whole number of dots wide, so that squares of it join without a seam. */
function hatchPicture(pattern: Hatch, colour: string, enlarged: number) {
  const { context, made } = canvas(HATCH_SIDE / enlarged, HATCH_SIDE / enlarged);
  context.setTransform(1, 0, 0, 1, 0, 0);
  const scale = context.canvas.width / HATCH_SIDE;
  context.scale(scale, scale);
  context.strokeStyle = colour;
  context.lineWidth = pattern === 'dots' ? 1.4 : LINES.hair;
  context.stroke(new Path2D(HATCHES[pattern]));
  return made();
}

/** Side of the nothing that keeps labels off a line, px. */
const CLEAR = 10;
