import { VERDICTS, type Verdict } from '../../domain/lab/verdict';
import { FIELD_TABLES } from '../../domain/site/schema-field';
import type { Role } from '../look/look';

/**
 * The shapes of the sheet, each drawn once, as path data in a box of 24 units
 * with its middle at (12, 12). A shape says by itself what its colour says
 * too: printed in grey no two are alike, and a test looks.
 */
export type Part = {
  readonly d: string;
  /** `colour` is the item's own, `ground` that of the paper. */
  readonly fill?: 'colour' | 'ground';
  readonly stroke?: 'colour' | 'ground';
  /** Width of the stroke in units of the box. */
  readonly width?: number;
};

const { kind, status } = FIELD_TABLES.locations.fields;

export const KINDS = kind.choices;
export type PointKind = (typeof KINDS)[number];

export const STATUSES = status.choices;
export type PointStatus = (typeof STATUSES)[number];

/** How a posted level is marked: from a well, from a push point open for an hour, not used. */
export const LEVEL_MARKS = ['well', 'temporary', 'surface water', 'left out'] as const;
export type LevelMark = (typeof LEVEL_MARKS)[number];

export type SymbolName =
  | `${PointKind}, ${PointStatus}`
  | `verdict ${Verdict}`
  | `level, ${LevelMark}`
  | 'arrow head'
  | 'selection'
  | 'receptor'
  | 'source'
  | 'cross';

const STROKE = 2.4;

const circle = (r: number, x = 12, y = 12) =>
  `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`;

/** Outline of each kind, and its lower half for a hole filled again. */
const BODIES: Readonly<Record<PointKind, { readonly body: string; readonly low: string }>> = {
  // A probe's cross-section on its corner: the commonest point takes the least room.
  'direct push': { body: 'M12 2.5L21.5 12L12 21.5L2.5 12z', low: 'M2.5 12H21.5L12 21.5z' },
  // A casing seen from above.
  'monitoring well': { body: circle(8.8), low: 'M3.2 12a8.8 8.8 0 0 0 17.6 0z' },
  piezometer: { body: 'M4 4H20V20H4z', low: 'M4 12H20V20H4z' },
  // A board with its teeth.
  'staff gauge': {
    body: 'M6.5 2H14V5H18V8.5H14V11.5H18V15H14V18H18V22H6.5z',
    low: 'M6.5 12H14L18 12V15H14V18H18V22H6.5z',
  },
  // The wheel of a valve.
  'supply well': {
    body: 'M8.3 2.5H15.7V8.3H21.5V15.7H15.7V21.5H8.3V15.7H2.5V8.3H8.3z',
    low: 'M2.5 12H21.5V15.7H15.7V21.5H8.3V15.7H2.5z',
  },
};

const outline = (d: string): Part => ({ d, fill: 'ground', stroke: 'colour', width: STROKE });
const solid = (d: string): Part => ({ d, fill: 'colour', stroke: 'colour', width: STROKE });

/** How far a point has got, told on any body. */
const STATUS_PARTS: Readonly<Record<PointStatus, (body: string, low: string) => readonly Part[]>> =
  {
    planned: (body) => [outline(body)],
    pushed: (body) => [solid(body)],
    refused: (body) => [
      outline(body),
      { d: 'M3.5 3.5L20.5 20.5M20.5 3.5L3.5 20.5', stroke: 'colour', width: 2.8 },
    ],
    // Struck out as on a list: given up before anything was done.
    dropped: (body) => [
      outline(body),
      { d: 'M1.5 9.2H22.5M1.5 14.8H22.5', stroke: 'colour', width: 1.9 },
    ],
    installed: (body) => [solid(body), { d: circle(3.4), fill: 'ground' }],
    decommissioned: (body, low) => [outline(body), { d: low, fill: 'colour' }],
  };

const UP = 'M12 2.5L22 20.5H2z';

const VERDICT_PARTS: Readonly<Record<Verdict, readonly Part[]>> = {
  exceeds: [solid(UP)],
  'exceeds-estimated': [outline(UP), { d: circle(2.7, 12, 14.6), fill: 'colour' }],
  'does-not-exceed': [{ d: circle(6.4), fill: 'colour' }],
  'not-detected': [{ d: circle(6.6), fill: 'ground', stroke: 'colour', width: 2.6 }],
  // The one that asks: as heavy as an exceedance, and nothing like a non-detect.
  'cannot-tell': [
    solid('M3 3H21V21H3z'),
    {
      d: 'M8 9.2C8 6.8 9.7 5.6 12 5.6C14.4 5.6 16.1 7 16.1 9.1C16.1 11.6 12.3 11.9 12.3 14.6',
      stroke: 'ground',
      width: 2.8,
    },
    { d: circle(1.7, 12.3, 18.2), fill: 'ground' },
  ],
  rejected: [{ d: 'M4.5 4.5L19.5 19.5M19.5 4.5L4.5 19.5', stroke: 'colour', width: 4.2 }],
  'not-comparable': [
    { d: 'M3.5 8.5H20.5M3.5 15.5H20.5M16.5 3L7.5 21', stroke: 'colour', width: 2.8 },
  ],
  // A result with no line to hold it against.
  'no-level': [{ d: [4.8, 12, 19.2].map((x) => circle(2.7, x)).join(''), fill: 'colour' }],
  // An empty bracket: something was due here.
  'no-result': [{ d: 'M8.5 4H4V20H8.5M15.5 4H20V20H15.5', stroke: 'colour', width: 2.6 }],
};

const DOWN = 'M3 4H21L12 17z';

const LEVEL_PARTS: Readonly<Record<LevelMark, readonly Part[]>> = {
  well: [solid(DOWN), { d: 'M4.5 21.3H19.5', stroke: 'colour', width: 2.2 }],
  temporary: [outline(DOWN), { d: 'M4.5 21.3H9M15 21.3H19.5', stroke: 'colour', width: 2.2 }],
  'surface water': [
    outline(DOWN),
    { d: 'M3 21.5Q7.5 17.8 12 21.5T21 21.5', stroke: 'colour', width: 2.2 },
  ],
  'left out': [outline(DOWN), { d: 'M3 21.5L21 1.5', stroke: 'colour', width: 2.4 }],
};

const OTHERS: readonly (readonly [SymbolName, readonly Part[]])[] = [
  // Turns about the middle of its base, which stands where the shaft ends.
  ['arrow head', [{ d: 'M12 0L19.5 12H4.5z', fill: 'colour' }]],
  ['selection', [{ d: circle(10), stroke: 'colour', width: 2.2 }]],
  // A house about whatever stands there.
  ['receptor', [{ d: 'M2.5 10.5L12 2.5L21.5 10.5V21.5H2.5z', stroke: 'colour', width: 1.6 }]],
  ['source', [{ d: 'M12 2V22M3.3 7L20.7 17M20.7 7L3.3 17', stroke: 'colour', width: 2.8 }]],
  ['cross', [{ d: 'M12 2V22M2 12H22', stroke: 'colour', width: 2.2 }]],
];

const ALL: readonly (readonly [SymbolName, readonly Part[]])[] = [
  ...KINDS.flatMap((kind) =>
    STATUSES.map((status) => {
      const { body, low } = BODIES[kind];
      return [`${kind}, ${status}`, STATUS_PARTS[status](body, low)] as const;
    }),
  ),
  ...VERDICTS.map((code) => [`verdict ${code}`, VERDICT_PARTS[code]] as const),
  ...LEVEL_MARKS.map((mark) => [`level, ${mark}`, LEVEL_PARTS[mark]] as const),
  ...OTHERS,
];

export const SYMBOLS = Object.fromEntries(ALL) as Readonly<Record<SymbolName, readonly Part[]>>;

/** In the order they are defined. */
export const SYMBOL_NAMES = ALL.map(([name]) => name);

/** The one colour of a verdict: the signal for what exceeds, ink for all else. */
export const verdictColour = (code: Verdict): Role =>
  code === 'exceeds' || code === 'exceeds-estimated' ? 'signal' : 'ink';

/** Paper left free around a shape, in units of its box, so that it stands clear of lines. */
export const CASING = 3;
