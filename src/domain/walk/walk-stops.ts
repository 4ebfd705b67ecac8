import type { DataPackage } from '../site/data-package';
import type { Edit } from '../site/edits/apply';
import { SHOWN_AT_FIRST, type Shown } from '../site/shown';
import type { Site } from '../site/site';
import { cellText } from '../site/table';
import { firstWalk } from './first-walk';
import {
  MADE_STOPS,
  plain,
  said,
  type PointsShown,
  type Sentence,
  type Stop,
  type StopView,
  type WalkOf,
  type Window,
} from './stop';

/**
 * The stops of a walk in order: those the views table holds, or the first walk
 * where nobody has changed it. A row that only names a stop of the first walk
 * keeps that stop's sentences, which go on changing with the data.
 */
export function stopsOf(site: Site, of: WalkOf): Stop[] {
  const made = firstWalk(site, of);
  const rows = site.views
    .filter(({ order }) => order !== null)
    .toSorted((a, b) => (a.order ?? 0) - (b.order ?? 0));
  if (rows.length === 0) return made;
  const stops = rows.flatMap((row): Stop[] => {
    const kept = readShown(row.shown);
    const from = made.find((stop) => stop.made !== null && stop.made === kept.made);
    const view = from?.view ?? kept.view;
    if (!view) return [];
    return [
      {
        id: row.id,
        made: from?.made ?? null,
        title: row.title ?? from?.title ?? row.id,
        sentences: row.words === null ? (from?.sentences ?? []) : paragraphs(row.words),
        notes: row.notes ?? from?.notes ?? '',
        view,
        ...(from?.alsoOf && row.words === null ? { alsoOf: from.alsoOf } : {}),
        hidden: row.hidden === true,
      },
    ];
  });
  return stops.length > 0 ? stops : made;
}

/** Each line that was typed is a sentence of its own. */
const paragraphs = (words: string): Sentence[] =>
  words.split(/\s*\n\s*/).flatMap((line) => (line === '' ? [] : [said(line)]));

type KeptShown = { readonly made: string | null; readonly view: StopView | null };

/** The `shown` column read, whatever stands in it: a later version may write more. */
function readShown(text: string): KeptShown {
  const given = record(parsed(text));
  if (!given) return { made: null, view: null };
  if (typeof given.made === 'string') return { made: given.made, view: null };
  const shown = record(given.shown);
  const seen = record(given.window);
  const sides = [seen?.west, seen?.south, seen?.east, seen?.north];
  const isWindow = sides.every((side) => typeof side === 'number' && Number.isFinite(side));
  return {
    made: null,
    view: shown && {
      shown: readOver(shown),
      points: isPoints(given.points) ? given.points : 'all',
      contours: given.contours === true,
      ...askedOf(given.asked),
      ...(given.section === true ? { section: true } : {}),
      ...cutOf(given.cut),
      ...(given.sides === true ? { sides: true } : {}),
      ...(given.pictures === true ? { pictures: true } : {}),
      window: isWindow ? (seen as unknown as Window) : null,
    },
  };
}

const nameOf = (of: unknown) => (typeof of === 'string' ? of : null);

/** Which results were asked for, if others than at first. */
function askedOf(given: unknown): Pick<StopView, 'asked'> {
  const asked = record(given);
  if (!asked) return {};
  return {
    asked: {
      allEvents: asked.allEvents === true,
      zone: nameOf(asked.zone),
      matrix: nameOf(asked.matrix),
      samples: asked.samples === 'all samples' ? 'all samples' : 'field samples',
      group: nameOf(asked.group),
    },
  };
}

const isPlace = (given: unknown): given is readonly [number, number] =>
  Array.isArray(given) && given.length === 2 && given.every((one) => Number.isFinite(one));

/** Where its section was cut, if not along the first line. */
function cutOf(given: unknown): Pick<StopView, 'cut'> {
  const cut = record(given);
  const { line, corridor } = cut ?? {};
  if (typeof corridor !== 'number' || !(corridor > 0)) return {};
  if (typeof line === 'string') return { cut: { line, corridor } };
  return Array.isArray(line) && line.length > 1 && line.every(isPlace)
    ? { cut: { line, corridor } }
    : {};
}

const POINTS: readonly PointsShown[] = ['all', 'pushed', 'gauged', 'sampled', 'borings', 'planned'];
const isPoints = (given: unknown): given is PointsShown => POINTS.includes(given as PointsShown);

const record = (given: unknown) =>
  typeof given === 'object' && given !== null && !Array.isArray(given)
    ? (given as Readonly<Record<string, unknown>>)
    : null;

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** What was kept, each part only where it is of the kind it should be. */
function readOver(given: Readonly<Record<string, unknown>>): Shown {
  const flag = (of: unknown, usual: boolean) => (typeof of === 'boolean' ? of : usual);
  const texts = (of: readonly unknown[]) =>
    of.filter((one): one is string => typeof one === 'string');
  const { construction } = given;
  return {
    ...SHOWN_AT_FIRST,
    event: nameOf(given.event),
    zone: nameOf(given.zone),
    levelSet: nameOf(given.levelSet),
    analyte: nameOf(given.analyte),
    ...(Array.isArray(given.besides) ? { besides: texts(given.besides) } : {}),
    construction: Array.isArray(construction) ? texts(construction) : [],
    heads: flag(given.heads, true),
    arrow: flag(given.arrow, true),
    verdicts: flag(given.verdicts, true),
    labels: flag(given.labels, true),
  };
}

/** The words of a stop as they are typed, each sentence on a line of its own. */
export const wordsOf = ({ sentences }: Pick<Stop, 'sentences'>) => sentences.map(plain).join('\n');

const BLANK = { title: '', words: '', notes: '', hidden: '' };

/** A row of the views table for a stop, without its place; a stop of the first walk is only named. */
const rowOf = (stop: Stop) => ({
  id: stop.id,
  title: stop.made === null ? stop.title : '',
  words: stop.made === null ? wordsOf(stop) : '',
  notes: stop.made === null ? stop.notes : '',
  shown: JSON.stringify(stop.made === null ? stop.view : { made: stop.made }),
  hidden: stop.hidden ? 'yes' : '',
});

/**
 * The walk in another order, some hidden, some added or gone, as one edit. Words
 * that were edited stay. A stop of the first walk that the event in hand has
 * nothing to say of keeps its row, so that it is told of the others.
 */
export function rewriteWalk(given: DataPackage, stops: readonly Stop[]): Edit {
  const before = given.tables.views;
  const rows = Array.from({ length: before?.size ?? 0 }, (_, row) => row);
  const cell = (row: number, column: string) => (before ? cellText(before, row, column) : '');
  const kept = new Map(rows.map((row) => [cell(row, 'id').trim(), row]));
  const inWalk = rows.filter((row) => cell(row, 'order').trim() !== '');
  const rowsBefore: Place[] =
    inWalk.length > 0
      ? inWalk
          .toSorted((a, b) => Number(cell(a, 'order')) - Number(cell(b, 'order')))
          .map((row) => ({ id: cell(row, 'id').trim(), made: readShown(cell(row, 'shown')).made }))
      : MADE_STOPS.map((made) => ({ id: made, made }));
  const told = new Map(stops.map((stop) => [stop.id, stop]));
  const added = placesOf(rowsBefore, stops).map(({ id, made }, i) => {
    const order = String(i + 1);
    const stop = told.get(id);
    const row = kept.get(id);
    const fresh = stop ? rowOf(stop) : { ...BLANK, id, shown: JSON.stringify({ made }) };
    if (row === undefined) return { ...fresh, order };
    const texts = Object.fromEntries(
      (before?.columns ?? []).map((column) => [column, cell(row, column)]),
    );
    return { ...texts, order, hidden: stop ? fresh.hidden : cell(row, 'hidden') };
  });
  return {
    kind: 'together',
    edits: [
      ...(inWalk.length > 0
        ? [{ kind: 'remove-rows', table: 'views', rows: inWalk } as const]
        : []),
      { kind: 'add-rows', table: 'views', rows: added },
    ],
  };
}

type Place = { readonly id: string; readonly made: string | null };

/** The stops in their order, and behind whichever stood before it each made one that is not told now. */
function placesOf(before: readonly Place[], stops: readonly Stop[]): Place[] {
  const places: Place[] = stops.map(({ id, made }) => ({ id, made }));
  const isMade = (made: string | null) => MADE_STOPS.some((one) => one === made);
  before.forEach((place, i) => {
    const isTold = places.some(({ id, made }) => id === place.id || made === place.made);
    if (isTold || !isMade(place.made)) return;
    const ahead = before.slice(0, i).findLast(({ id }) => places.some((one) => one.id === id));
    places.splice(places.findIndex(({ id }) => id === ahead?.id) + 1, 0, place);
  });
  return places;
}

/** Other words for a stop, a blank one back to what the site makes of itself; or another view, as `shown`. */
export function rewordStop(
  given: DataPackage,
  stops: readonly Stop[],
  id: string,
  words: Readonly<Partial<Record<'title' | 'words' | 'notes' | 'shown', string>>>,
): Edit {
  const all = rewriteWalk(given, stops);
  if (all.kind !== 'together') return all;
  return {
    ...all,
    edits: all.edits.map((edit) =>
      edit.kind === 'add-rows'
        ? { ...edit, rows: edit.rows.map((row) => (row.id === id ? { ...row, ...words } : row)) }
        : edit,
    ),
  };
}

/** An id no stop has yet. */
export function freeId(stops: readonly Stop[]): string {
  for (let n = 1; ; n++) {
    const id = `stop-${n}`;
    if (!stops.some((stop) => stop.id === id)) return id;
  }
}
