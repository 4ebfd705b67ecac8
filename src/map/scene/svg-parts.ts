import type { Palette, Role } from '../look/look';
import { FAMILY, LINES, WEIGHTS } from '../look/look';
import { haloOf } from './halo';
import { MARK, markRoom, type PlacedLabel } from './place-labels';
import type { Hatch, Side } from './scene';
import { CASING, SYMBOLS, type SymbolName } from './symbols';
import { CAPITAL, LEADING, TAIL, textWidth } from './text-width';

/** A drawing as elements, for a component to mount or a file to hold. */
export type SvgNode = {
  readonly tag: 'g' | 'path' | 'text' | 'tspan' | 'rect' | 'image' | 'defs' | 'pattern';
  readonly attributes: Readonly<Record<string, string | number>>;
  readonly children?: readonly SvgNode[];
  readonly text?: string;
};

/** Hundredths of a px are enough for any printer. */
export const short = (n: number) => Number(n.toFixed(2));

/** A shape of a size with its middle at a place in px. */
export function symbolNode(
  shape: SymbolName,
  size: number,
  colour: string,
  ground: string,
  [x, y]: readonly [number, number],
  turned = 0,
): SvgNode {
  const paints = { colour, ground };
  const parts = SYMBOLS[shape];
  const turn = turned ? `rotate(${short(turned)})` : '';
  return {
    tag: 'g',
    attributes: {
      transform: `translate(${short(x)} ${short(y)})${turn}scale(${(size / 24).toFixed(4)})translate(-12 -12)`,
      'stroke-linejoin': 'round',
    },
    children: [
      ...parts.map(({ d, stroke, width = 0 }): SvgNode => ({
        tag: 'path',
        attributes: {
          d,
          fill: 'none',
          stroke: ground,
          'stroke-width': (stroke ? width : 0) + CASING,
        },
      })),
      ...parts.map(({ d, fill, stroke, width = 0 }): SvgNode => ({
        tag: 'path',
        attributes: {
          d,
          fill: fill ? paints[fill] : 'none',
          ...(stroke && { stroke: paints[stroke], 'stroke-width': width }),
        },
      })),
    ],
  };
}

/** Words where they were placed, the mark before them if they have one. */
export function textNode(
  { item, box, side }: PlacedLabel,
  palette: Palette,
  who: Record<string, string>,
): SvgNode {
  const { size, turned = 0, mark } = item;
  const room = markRoom(item);
  const anchor = ANCHORS[side];
  const centre = [(box.left + box.right) / 2, (box.top + box.bottom) / 2] as const;
  const lines = item.text.split('\n');
  const height = size * (CAPITAL + TAIL + (lines.length - 1) * LEADING);
  const [left, right] = turned ? [centre[0], centre[0]] : [box.left + room, box.right];
  const at = { start: left, middle: (left + right) / 2, end: right }[turned ? 'middle' : anchor];
  const first = centre[1] - height / 2 + size * CAPITAL;
  const words: SvgNode = {
    tag: 'text',
    attributes: {
      'font-family': `'${FAMILY}', sans-serif`,
      'font-size': short(size),
      'font-weight': item.face === 'semibold' ? WEIGHTS.semibold : WEIGHTS.regular,
      'font-style': item.face === 'italic' ? 'italic' : 'normal',
      'text-anchor': turned ? 'middle' : anchor,
      fill: palette[item.colour],
      stroke: palette.paper,
      'stroke-width': short(2 * haloOf(item)),
      'stroke-linejoin': 'round',
      'paint-order': 'stroke',
      ...(turned && { transform: `rotate(${short(turned)} ${centre.map(short).join(' ')})` }),
      ...who,
    },
    children: lines.map((line, i) => ({
      tag: 'tspan',
      attributes: { x: short(at), y: short(first + i * size * LEADING) },
      text: line,
    })),
  };
  if (!mark) return words;
  const marks = lines.map((line, i) => {
    const right = anchor === 'end' ? box.right - textWidth(line, size, item.face) - room : box.left;
    return symbolNode(mark, size * MARK, palette[item.colour], palette.paper, [
      right + (size * MARK) / 2,
      first + size * (i * LEADING - CAPITAL / 2),
    ]);
  });
  return { tag: 'g', attributes: who, children: [...marks, words] };
}

/** Where words hold to their place: those to the east begin at it, those to the west end there. */
const ANCHORS: Readonly<Record<Side, 'start' | 'middle' | 'end'>> = {
  centre: 'middle',
  n: 'middle',
  s: 'middle',
  ne: 'start',
  e: 'start',
  se: 'start',
  nw: 'end',
  w: 'end',
  sw: 'end',
};

export const hatchId = (name: string, { pattern, colour }: { pattern: Hatch; colour: Role }) =>
  `${name}-${pattern}-${colour}`;

/** Side of a hatch's square, px. */
export const HATCH_SIDE = 8;

/** One square of each hatch, as path data; drawn again and again beside itself. */
export const HATCHES: Readonly<Record<Hatch, string>> = {
  diagonal: 'M-2 2L2 -2M0 8L8 0M6 10L10 6',
  crossed: 'M0 0L8 8M0 8L8 0',
  dots: 'M1.3 2h1.4M5.3 6h1.4',
  ripple: 'M0 2.5Q2 0.5 4 2.5T8 2.5',
};

export const hatchNode = (
  id: string,
  pattern: Hatch,
  colour: string,
  magnify: number,
): SvgNode => ({
  tag: 'pattern',
  attributes: {
    id,
    width: HATCH_SIDE * magnify,
    height: HATCH_SIDE * magnify,
    patternUnits: 'userSpaceOnUse',
  },
  children: [
    {
      tag: 'path',
      attributes: {
        d: HATCHES[pattern],
        ...(magnify !== 1 && { transform: `scale(${magnify})` }),
        fill: 'none',
        stroke: colour,
        'stroke-width': pattern === 'dots' ? 1.4 : LINES.hair,
      },
    },
  ],
});
