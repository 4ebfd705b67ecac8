import type { Asked } from '../lab/asked-results';
import type { Shown } from '../site/shown';
import type { Site } from '../site/site';
import type { GaugedScreen } from '../water/event-heads';
import type { Flow } from '../water/flow';
import type { Work } from '../work';

/** Words with numbers in them, each number with the work behind it. */
export type Part = string | { readonly text: string; readonly work: Work };
export type Sentence = readonly Part[];

/** A rectangle of the site's grid, in metres. */
export type Window = {
  readonly west: number;
  readonly south: number;
  readonly east: number;
  readonly north: number;
};

/** Which points a stop shows, beside those that carry a number on it. */
export type PointsShown = 'all' | 'pushed' | 'gauged' | 'sampled' | 'borings' | 'planned';

/** Where a section is cut, if not along the first line drawn on the site. */
export type Cut = {
  /** A section line by its feature; else its corners, grid metres. */
  readonly line: string | readonly (readonly [number, number])[];
  /** How far to either side points are carried onto it, ground metres. */
  readonly corridor: number;
};

/** What is seen at a stop: a camera and what is shown. */
export type StopView = {
  readonly shown: Shown;
  readonly points: PointsShown;
  readonly contours: boolean;
  /** Which results beside event and analyte; the field samples of the event where nothing else was asked. */
  readonly asked?: Asked;
  /** Whether the section stands under the map. */
  readonly section?: true;
  /** Where it is cut; along the first line drawn where nothing is said. */
  readonly cut?: Cut;
  /** Whether the open sides of what exceeds are drawn. */
  readonly sides?: true;
  /** Whether the pictures that are shown of the site lie under it. */
  readonly pictures?: true;
  /** What the map holds; null: the whole site. */
  readonly window: Window | null;
};

/** Stops the site makes of itself; their sentences change when the data do. */
export const MADE_STOPS = [
  'where',
  'pushes',
  'below',
  'water',
  'way',
  'found',
  'exceeds',
  'delineated',
  'receptors',
  'next',
] as const;
export type MadeStop = (typeof MADE_STOPS)[number];

/** A stop of the walk. */
export type Stop = {
  /** Its id in the views table. */
  readonly id: string;
  /** The stop of the first walk it is; null for one that somebody kept. */
  readonly made: MadeStop | null;
  readonly title: string;
  readonly sentences: readonly Sentence[];
  /** For the speaker alone. */
  readonly notes: string;
  readonly view: StopView;
  /** Events its words speak of beside the one it shows. */
  readonly alsoOf?: readonly string[];
  readonly hidden: boolean;
};

/** What the walk is about: one event, one zone, one set of levels. */
export type WalkOf = {
  readonly event: string | null;
  readonly zone: string | null;
  readonly levelSet: string | null;
};

/** All a stop is made from. */
export type Material = {
  readonly site: Site;
  readonly of: WalkOf;
  readonly heads: readonly GaugedScreen[];
  readonly flow: Flow | null;
};

/** What a stop of the first walk says. */
export type Telling = Pick<Stop, 'title' | 'sentences' | 'notes' | 'view' | 'alsoOf'>;

export const plain = (sentence: Sentence) =>
  sentence.map((part) => (typeof part === 'string' ? part : part.text)).join('');

export const said = (...parts: Part[]): Sentence => parts;

/** "3 points", "1 point". */
export const counted = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`;

/** "A, B and C"; after `most` of them "and 4 more". */
export function listed(names: readonly string[], most = 4): string {
  const some = names.length > most + 1 ? names.slice(0, most) : names;
  const rest = names.length - some.length;
  const all = rest > 0 ? [...some, `${rest} more`] : some;
  const last = all.at(-1) ?? '';
  return all.length < 2 ? last : `${all.slice(0, -1).join(', ')} and ${last}`;
}

/** "2025-09-15", or "2025-09-15 to 2025-09-19". */
export const days = (first: string, last: string) =>
  first === last ? first : `${first} to ${last}`;
