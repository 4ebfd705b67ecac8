import { azimuthBetween, distanceBetween } from '../geometry/compass';
import { nearestOnPiece } from '../geometry/nearest';
import { centroid } from '../geometry/measure';
import { cornersOf, moved, piecesOf, type Shape, type XY } from '../geometry/shape';
import { readShape } from '../geometry/wkt';
import { direction } from '../show';
import type { Feature } from '../site/schema';
import type { Site } from '../site/site';
import { metres, turn } from '../units';
import { inAnyEvent, overInAnyEvent, sampledEvents } from './any-event';
import { distanceWords } from './distance-words';
import { bare } from './ground-stops';
import { gaugedWith, waysOf, type EventWay } from './how-sure';
import { supplyWellSentences } from './supply-wells';
import { listed, said, type Material, type Sentence, type Telling } from './stop';

/** Something water could come from: a source drawn on the map, or a point that exceeds a level. */
type Start = { readonly name: string; readonly at: XY; readonly isSource: boolean };

type Drawn = { readonly name: string; readonly shape: Shape };

const drawnOf = (site: Site, kind: Feature['kind']): Drawn[] =>
  site.features.flatMap((feature) => {
    const read = feature.kind === kind ? readShape(feature.shape) : null;
    const { unit } = site.settings.grid;
    if (!read?.ok) return [];
    const shape = moved(read.value, ([e, n]) => [metres(e, unit), metres(n, unit)]);
    return [{ name: feature.name ?? feature.id, shape }];
  });

/** Points that exceed a level in the zone in any event, as they are marked on the map. */
function exceedingPoints(site: Site, of: Material['of']): Start[] {
  const locations = new Map(
    overInAnyEvent(site, of).flatMap(({ location }) => (location ? [[location.id, location]] : [])),
  );
  return [...locations.values()].flatMap(({ id, easting, northing }) =>
    easting && northing ? [{ name: id, at: [easting.value, northing.value], isSource: false }] : [],
  );
}

function startsOf(site: Site, of: Material['of']): Start[] {
  const sources = drawnOf(site, 'source area').flatMap(({ name, shape }) => {
    const at = centroid(shape);
    return at ? [{ name, at, isSource: true }] : [];
  });
  return [...sources, ...exceedingPoints(site, of)];
}

/**
 * The part of the compass a shape takes up seen from a place: from one direction
 * clockwise to the other, each piece of it by the shorter way round; more than it
 * takes where it goes more than half round the place. Null on it or all round.
 */
export function compassOf(shape: Shape, from: XY): readonly [number, number] | null {
  const corners = cornersOf(shape).flatMap((at) => azimuthBetween(from, at) ?? []);
  const [first] = corners;
  if (first === undefined) return null;
  const turns: number[] = corners.map((corner) => turn(first, corner));
  for (const [a, b] of piecesOf(shape)) {
    const [one, two] = [azimuthBetween(from, a), azimuthBetween(from, b)];
    if (one !== null && two !== null) turns.push(turn(first, one) + turn(one, two));
  }
  const [least, most] = [Math.min(...turns), Math.max(...turns)];
  return most - least >= 360 ? null : [first + least, first + most];
}

/** The directions the water took, each with the width of its fan: from one clockwise to the other, about the first. */
function rangeOf(ways: readonly EventWay[]): readonly [number, number] | null {
  const [first] = ways;
  if (!first) return null;
  const ends = ways.flatMap(({ azimuth, half }) => {
    const from = turn(first.azimuth, azimuth);
    return [from - (half ?? 0), from + (half ?? 0)];
  });
  return [first.azimuth + Math.min(...ends), first.azimuth + Math.max(...ends)];
}

/** Whether two parts of the compass share a direction. */
function meets([a, b]: readonly [number, number], [c, d]: readonly [number, number]): boolean {
  const [half, middle] = [(b - a) / 2, (a + b) / 2];
  return Math.abs(turn(middle, (c + d) / 2)) <= half + (d - c) / 2;
}

const nearest = (shape: Shape, from: XY): number =>
  Math.min(
    ...piecesOf(shape).map(([a, b]) => nearestOnPiece(from, [a, b]).distance),
    ...cornersOf(shape).map((at) => distanceBetween(from, at)),
  );

const bearings = ([from, to]: readonly [number, number]) => {
  const [a, b] = [direction((from + 720) % 360), direction((to + 720) % 360)];
  return a === b ? a : `${a} to ${b}`;
};

/** "Degreaser sump and 5 of the 21 points that exceeded a level in any event". */
function startWords(hit: readonly Start[], all: readonly Start[]): string {
  const of = (which: readonly Start[], isSource: boolean) =>
    which.filter((start) => start.isSource === isSource);
  const [points, every] = [of(hit, false), of(all, false)];
  const share = points.length === every.length ? 'all' : `${points.length} of the`;
  const told =
    points.length > 2
      ? [`${share} ${every.length} points that exceeded a level in any event`]
      : points.map(({ name }) => name);
  return listed([...of(hit, true).map(({ name }) => name), ...told]);
}

function receptorSentence(
  site: Site,
  { name, shape }: Drawn,
  starts: readonly Start[],
  ways: readonly EventWay[],
): Sentence {
  const range = rangeOf(ways);
  if (!range)
    return said(
      `${name}: whether water goes that way cannot be told, no direction being resolved.`,
    );
  const seen = starts.flatMap((start) => {
    const compass = compassOf(shape, start.at);
    return [{ start, compass, isHit: compass === null || meets(compass, range) }];
  });
  const hit = seen.filter(({ isHit }) => isHit);
  const events = ways.length === 1 ? 'the one event' : `the ${ways.length} events`;
  const went = `water went ${bearings(range)} in ${events} with a direction, error included`;
  if (hit.length === 0)
    return said(
      `${name}: it lies in that way from no source drawn and from no point that exceeds a level; ${went}. Between events, and in other zones, water may go another way.`,
    );
  const hits = hit.map(({ start }) => start);
  const [near] = hits.toSorted((a, b) => nearest(shape, a.at) - nearest(shape, b.at));
  const far = near
    ? ` (nearest: ${near.name}, ${distanceWords(site, nearest(shape, near.at) / (site.grid.combinedFactor ?? 1))})`
    : '';
  const across = hit.flatMap(({ compass }) => compass ?? []);
  const isPoint = shape.kind === 'points';
  const seenAt =
    isPoint && across.length > 0 ? `It lies at ${bearings(spanOf(across))} from them; ` : '';
  const and = seenAt === '' ? went.charAt(0).toUpperCase() + went.slice(1) : went;
  return said(
    `${name}: it may lie in the way of water from ${startWords(hits, starts)}${far}. ${seenAt}${and}.`,
  );
}

/** From the first of some directions clockwise to the last, all within half a turn. */
function spanOf(of: readonly number[]): readonly [number, number] {
  const first = of[0] ?? 0;
  const turns = of.map((one) => turn(first, one));
  return [first + Math.min(...turns), first + Math.max(...turns)];
}

/** What the water could reach: each receptor drawn, and whether it lies where the water went in any event. Null where none is drawn. */
export function whatMayBeReached({ site, of, heads }: Material): Telling | null {
  const receptors = drawnOf(site, 'receptor');
  if (receptors.length === 0) return null;
  const starts = startsOf(site, of);
  const { ways } = waysOf(site, of.zone);
  const pumped = supplyWellSentences(site, heads);
  return {
    title: 'What may lie in the way',
    sentences: [
      ...(starts.length > 0
        ? receptors.map((receptor) => receptorSentence(site, receptor, starts, ways))
        : [
            said('No source is drawn and no point exceeds a level: there is nothing to ask it of.'),
          ]),
      said(
        `This is direction alone${of.zone === null ? '' : `, in the ${of.zone} zone`}: it does not say that anything arrives, nor that anything is out of reach.${pumped.length > 0 ? '' : ' A well that is pumped draws water to it.'}`,
      ),
      ...pumped,
    ],
    alsoOf: [...new Set([...gaugedWith(site, of.zone), ...sampledEvents(site)])],
    notes: starts
      .map(({ name, isSource }) => `${name}: ${isSource ? 'drawn as a source' : 'exceeds a level'}`)
      .join('\n'),
    view: {
      shown: { ...bare(of), arrow: true, verdicts: true },
      asked: inAnyEvent(of),
      points: 'all',
      contours: false,
      window: null,
    },
  };
}
