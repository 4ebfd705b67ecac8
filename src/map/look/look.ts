/**
 * The design of the whole tool in one place: a drafted sheet. Quiet paper, dark
 * ink, one blue for water, one warm signal for "exceeds"; nothing else has a
 * colour, so these two mean something. `ui/look/tokens.css` is this file as CSS.
 */

/** What a colour is for. Painters and style sheets name roles, never colours. */
export type Role = keyof typeof BRIGHT;

/** Bright room, daylight, print. */
const BRIGHT = {
  paper: '#faf8f2', // the sheet
  panel: '#f1eee5', // what lies beside the sheet
  raised: '#ffffff', // fields, menus, cards
  ink: '#1a1f23', // lines and words
  'ink-soft': '#4c5359', // words that matter less; still AA on every ground
  line: '#7d796e', // edges of controls, at least 3:1
  hairline: '#d3cfc3', // graticule and rules; decoration only
  wash: '#e6e2d7', // a building, a chosen row
  water: '#155a96',
  'water-wash': '#d3e3f0',
  signal: '#b3371a',
  'signal-wash': '#f6dccf',
} as const;

/** Dark room, projector. */
const DARK: Readonly<Record<Role, string>> = {
  paper: '#11161a',
  panel: '#1a2126',
  raised: '#232b31',
  ink: '#f3f0e8',
  'ink-soft': '#b9bfc4',
  line: '#7f888f',
  hairline: '#2f383e',
  wash: '#2a3339',
  water: '#86c1f5',
  'water-wash': '#1b3449',
  signal: '#ff946f',
  'signal-wash': '#47241a',
};

/** A colour for every role. */
export type Palette = Readonly<Record<Role, string>>;

/** One for a bright room and for print, one for a dark room. */
export const PALETTES = { bright: BRIGHT, dark: DARK } as const satisfies Record<string, Palette>;

export type Theme = keyof typeof PALETTES;

/** Words on coloured ground that must reach 4.5:1 (WCAG 2.2, 1.4.3), as [words, ground]. */
export const WORDS_ON: readonly (readonly [Role, Role])[] = [
  ...(['paper', 'panel', 'raised', 'wash'] as const).flatMap((ground) =>
    (['ink', 'ink-soft', 'water', 'signal'] as const).map((words) => [words, ground] as const),
  ),
  ['ink', 'water-wash'],
  ['water', 'water-wash'],
  ['ink', 'signal-wash'],
  ['signal', 'signal-wash'],
  ['paper', 'ink'],
  ['paper', 'water'],
  ['paper', 'signal'],
];

/** Shapes and edges that must reach 3:1 (WCAG 2.2, 1.4.11), as [shape, ground]. */
export const SHAPES_ON: readonly (readonly [Role, Role])[] = (
  ['paper', 'panel', 'raised'] as const
).map((ground) => ['line', ground] as const);

/** One family for page, map and sheets; its figures are all of one width. */
export const FAMILY = 'Source Sans 3';

/** Sizes of words in px at arm's length; a wall multiplies them all. */
export const SIZES = {
  fine: 12, // scale bars, graticule
  note: 14, // labels, tables
  body: 16,
  lead: 19,
  title: 24,
  display: 36,
} as const;

export const WEIGHTS = { regular: 400, semibold: 600 } as const;

/** Paper left free around the words of a map, in their size. */
export const HALO = 0.16;

/** Weights of lines in px. */
export const LINES = {
  hair: 0.75, // graticule, hatching
  thin: 1.25, // outlines of what is only context
  medium: 2, // what the site is bounded and crossed by
  heavy: 3, // what the sheet is about
  arrow: 9, // read from four metres
} as const;

/** Distances in px: a step is half as much again, or a third more. */
export const SPACES = { 1: 4, 2: 8, 3: 12, 4: 16, 5: 24, 6: 32, 7: 48 } as const;

/** Corners are drafted, not moulded. */
export const RADIUS = 2;

/** The least side of something to press, for a gloved finger (WCAG 2.2, 2.5.5). */
export const TARGET = 44;
