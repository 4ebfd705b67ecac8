import { LINES, SIZES } from '../look/look';
import { upright } from './along';
import { azimuthTo, toward } from './plain';
import type { Item, LineItem, Place, TextItem } from './scene';

/** A well of the construction: its head as it is to be read on the drawing. */
export type ConstructionWell = {
  readonly who: string;
  readonly at: Place;
  readonly head: string;
};

/**
 * The three-point problem as it is drawn by hand (R. C. Heath, 1983, Basic
 * ground-water hydrology, USGS Water-Supply Paper 2220, p. 11; value from memory).
 */
export type Construction = {
  readonly high: ConstructionWell;
  readonly middle: ConstructionWell;
  readonly low: ConstructionWell;
  /** On the line from high to low, where the head is that of the middle well. */
  readonly interpolated: Place;
  /** How far that is from the high well, as read on the drawing: "68 m". */
  readonly along: string;
  /** On the contour, or on its line, square to the low well. */
  readonly foot: Place;
  /** From the foot to the low well: "134.6 m". */
  readonly distance: string;
};

/**
 * Steps of the construction: 1 the triangle with its heads; 2 the middle head
 * found between high and low; 3 the contour through both; 4 the way down,
 * square to it.
 */
export const CONSTRUCTION_STEPS = 4;

const LAYER = 'construction';

const line = (
  path: readonly Place[],
  look: Partial<LineItem> & Pick<LineItem, 'means'>,
): LineItem => ({
  kind: 'line',
  layer: LAYER,
  path,
  weight: LINES.thin,
  colour: 'ink',
  casing: 1.5,
  ...look,
});

/** Words along a line, over its middle, read from below. */
function along([from, to]: readonly [Place, Place], text: string): TextItem {
  return {
    kind: 'text',
    layer: 'captions',
    at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2],
    text,
    sides: ['n', 's'],
    away: 7,
    size: SIZES.note,
    face: 'semibold',
    colour: 'ink',
    priority: 1,
    always: true,
    turned: upright(azimuthTo(from, to) - 90),
  };
}

/** The construction as far as a step, 1 to 4. */
export function constructionItems(construction: Construction, step: number): Item[] {
  const { high, middle, low, interpolated, foot } = construction;
  const steps: readonly (readonly Item[])[] = [
    [
      line([high.at, middle.at, low.at, high.at], { dash: 'dashed', means: 'Triangle of wells' }),
      ...[high, middle, low].map(headAt),
    ],
    [
      {
        kind: 'symbol',
        layer: LAYER,
        at: interpolated,
        shape: 'cross',
        size: 16,
        colour: 'water',
        means: `Head of ${middle.head} between high and low`,
      },
      along([high.at, interpolated], construction.along),
    ],
    [
      line(contourThrough(middle.at, interpolated, foot), {
        colour: 'water',
        weight: LINES.medium,
        means: `Contour of ${middle.head}`,
      }),
      along([middle.at, interpolated], middle.head),
    ],
    [
      ...squareMark(foot, interpolated, middle.at, low.at),
      {
        ...line([foot, low.at], { colour: 'water', means: 'Square to the contour' }),
        layer: 'arrow',
      },
      {
        kind: 'arrow',
        layer: 'arrow',
        tail: foot,
        head: between(foot, low.at, SHORT),
        width: LINES.arrow * 0.6,
        colour: 'water',
        means: 'Down the gradient',
      },
      along([foot, low.at], construction.distance),
    ],
  ];
  return steps.slice(0, step).flat();
}

/** The arrow stops short of the low well, whose symbol would cover its point. */
const SHORT = 0.85;

const between = ([e0, n0]: Place, [e1, n1]: Place, share: number): Place => [
  e0 + share * (e1 - e0),
  n0 + share * (n1 - n0),
];

const headAt = ({ who, at, head }: ConstructionWell): TextItem => ({
  kind: 'text',
  layer: 'posted-heads',
  who,
  at,
  text: head,
  sides: ['s', 'n', 'e', 'w'],
  away: 14,
  size: SIZES.body,
  face: 'semibold',
  colour: 'water',
  priority: 0,
  always: true,
  mark: 'level, well',
});

/** The line through three places in a row, a quarter longer at both ends. */
function contourThrough(...places: [Place, Place, Place]): readonly Place[] {
  const [a, b] = places;
  const azimuth = azimuthTo(a, b);
  const angle = (azimuth * Math.PI) / 180;
  const reach = ([e, n]: Place) => (e - a[0]) * Math.sin(angle) + (n - a[1]) * Math.cos(angle);
  const at = places.map(reach);
  const [least, most] = [Math.min(...at), Math.max(...at)];
  const more = (most - least) / 4;
  return [toward(a, azimuth, least - more), toward(a, azimuth, most + more)];
}

/** The small square that says two lines meet at a right angle. */
function squareMark(foot: Place, b: Place, a: Place, low: Place): LineItem[] {
  const size = 0.1 * Math.hypot(low[0] - foot[0], low[1] - foot[1]);
  if (size === 0) return [];
  const inward = azimuthTo(a, b);
  const down = azimuthTo(foot, low);
  const corner = toward(toward(foot, inward, size), down, size);
  return [
    line([toward(foot, inward, size), corner, toward(foot, down, size)], {
      means: 'Right angle',
      casing: 0,
    }),
  ];
}
