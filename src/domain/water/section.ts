import { lineLength } from '../geometry/measure';
import { nearestOnPiece } from '../geometry/nearest';
import { piecesOfLine, type Line, type XY } from '../geometry/shape';
import { readShape } from '../geometry/wkt';
import type { Verdict } from '../lab/verdict';
import type { Feature, Location, Screen, Stratum } from '../site/schema';
import type { Site } from '../site/site';
import { metres, type Metres } from '../units';
import type { GaugedScreen } from './event-heads';
import type { Flow } from './flow';
import { intervalOf } from './screen-interval';
import { headOnTin, triangulate } from './surface/tin';
import { surfacePoints } from './surface-words';

/** A screen as it stands in a section: elevations above the site's datum. */
export type SectionScreen = {
  readonly screen: Screen;
  readonly top: Metres;
  readonly base: Metres;
  /** Of the event; null where it was not gauged or has no head. */
  readonly gauged: GaugedScreen | null;
  readonly verdict: Verdict | null;
};

/** A layer of a boring between two elevations. */
export type SectionLayer = { readonly layer: Stratum; readonly top: Metres; readonly base: Metres };

/** A point carried square onto the section line. */
export type SectionColumn = {
  readonly location: Location;
  /** On the ground along the line from its beginning. */
  readonly at: Metres;
  /** On the ground off the line: positive to the right, looking along it. */
  readonly offset: Metres;
  readonly ground: Metres;
  readonly layers: readonly SectionLayer[];
  readonly screens: readonly SectionScreen[];
};

/** A slice through the site along a line, in ground metres. */
export type Section = {
  /** Ground length of the line. */
  readonly length: Metres;
  /** From the beginning of the line on. */
  readonly columns: readonly SectionColumn[];
  /** Points within the corridor that cannot be drawn: their ground elevation is not known. */
  readonly withoutGround: readonly string[];
  /** The water level under the line where it is known, in runs: triangulated between the wells. */
  readonly water: readonly (readonly { readonly at: Metres; readonly head: Metres }[])[];
  readonly lowest: Metres;
  readonly highest: Metres;
};

/** Lines of a section drawn on the site, in grid metres, with their names. */
export const sectionLines = ({ features, settings }: Site): { feature: Feature; line: Line }[] =>
  features.flatMap((feature) => {
    const read = feature.kind === 'section line' ? readShape(feature.shape) : null;
    const [line] = read?.ok && read.value.kind === 'lines' ? read.value.lines : [];
    const { unit } = settings.grid;
    return line && line.length > 1
      ? [{ feature, line: line.map(([e, n]): XY => [metres(e, unit), metres(n, unit)]) }]
      : [];
  });

type Along = { readonly at: number; readonly offset: number };

/** Where a place falls on a line: along it, and square to it, right positive. Null without a line. */
export function placeOnLine(line: Line, place: XY): Along | null {
  let best: (Along & { readonly distance: number }) | null = null;
  let before = 0;
  for (const piece of piecesOfLine(line)) {
    const [[ax, ay], [bx, by]] = piece;
    const { at, distance } = nearestOnPiece(place, piece);
    if (best === null || distance < best.distance) {
      const right = (bx - ax) * (place[1] - ay) - (by - ay) * (place[0] - ax) < 0;
      best = {
        at: before + Math.hypot(at[0] - ax, at[1] - ay),
        offset: right ? distance : -distance,
        distance,
      };
    }
    before += Math.hypot(bx - ax, by - ay);
  }
  return best && { at: best.at, offset: best.offset };
}

/**
 * What stands within a corridor of a line, carried square onto it: ground,
 * strata, screens to scale, and the heads of one event. Null without points.
 *
 * @param line      in grid metres
 * @param corridor  to either side, on the ground
 * @param headAt    the water level at a place in grid metres; null where it is not known
 * @param verdicts  the worst verdict of each screen, by its id
 */
export function sectionOf(
  site: Site,
  line: Line,
  corridor: Metres,
  heads: readonly GaugedScreen[],
  headAt: (place: XY) => Metres | null,
  verdicts: ReadonlyMap<string, Verdict>,
): Section | null {
  const factor = site.grid.combinedFactor ?? 1;
  const withoutGround: string[] = [];
  const gauged = new Map(
    heads.filter(({ leftOut }) => leftOut !== 'read-again').map((one) => [one.screen.id, one]),
  );
  const columns = [...site.locations.values()].flatMap((location): SectionColumn[] => {
    const { easting, northing, ground_elevation: ground } = location;
    if (!easting || !northing) return [];
    const along = placeOnLine(line, [easting.value, northing.value]);
    if (!along || Math.abs(along.offset) / factor > corridor) return [];
    if (!ground) {
      withoutGround.push(location.id);
      return [];
    }
    return [
      {
        location,
        at: metres(along.at / factor),
        offset: metres(along.offset / factor),
        ground: ground.value,
        layers: site.strata
          .filter((layer) => layer.location === location.id)
          .map((layer) => ({
            layer,
            top: metres(ground.value - layer.top.value),
            base: metres(ground.value - layer.bottom.value),
          })),
        screens: [...site.screens.values()].flatMap((screen): SectionScreen[] => {
          const interval = screen.location === location.id ? intervalOf(screen, location) : null;
          if (!interval?.ok) return [];
          const { topElevation: top, baseElevation: base } = interval.value;
          return top && base
            ? [
                {
                  screen,
                  top: top.value,
                  base: base.value,
                  gauged: gauged.get(screen.id) ?? null,
                  verdict: verdicts.get(screen.id) ?? null,
                },
              ]
            : [];
        }),
      },
    ];
  });
  if (columns.length === 0) return null;
  columns.sort((a, b) => a.at - b.at);
  const water = waterAlong(line, factor, headAt);
  const elevations = columns.flatMap(({ ground, layers, screens }) => [
    ground,
    ...layers.map(({ base }) => base),
    ...screens.map(({ base }) => base),
    ...screens.flatMap(({ gauged: one }) => one?.head?.value ?? []),
  ]);
  return {
    length: metres(lineLength(line) / factor),
    columns,
    withoutGround,
    water,
    lowest: metres(Math.min(...elevations)),
    highest: metres(Math.max(...elevations)),
  };
}

/** Places along a line at which the water level is asked for. */
const SAMPLES = 120;

function waterAlong(
  line: Line,
  factor: number,
  headAt: (place: XY) => Metres | null,
): Section['water'] {
  const pieces = piecesOfLine(line);
  const long = lineLength(line);
  const runs: { at: Metres; head: Metres }[][] = [[]];
  let before = 0;
  for (const [a, b] of pieces) {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const steps = Math.max(1, Math.ceil((SAMPLES * length) / Math.max(long, 1e-9)));
    for (let i = before === 0 ? 0 : 1; i <= steps; i++) {
      const t = i / steps;
      const head = headAt([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]);
      if (head === null) runs.push([]);
      else runs.at(-1)?.push({ at: metres((before + t * length) / factor), head });
    }
    before += length;
  }
  return runs.filter((run) => run.length > 1);
}

/** The triangulated water level of a flow at a place in grid metres; null outside its wells. */
export function headUnder(site: Site, flow: Flow | null): (place: XY) => Metres | null {
  const tin = flow ? triangulate(surfacePoints(flow)) : null;
  const centre = flow?.centre;
  if (!tin?.ok || !centre) return () => null;
  const factor = site.grid.combinedFactor ?? 1;
  return ([east, north]) =>
    headOnTin(tin.value, (east - centre.easting) / factor, (north - centre.northing) / factor);
}

/** Vertical exaggerations to choose from. */
export const EXAGGERATIONS = [1, 2, 5, 10, 20, 50, 100] as const;

/** The largest exaggeration at which the section is no taller than `share` of its length; at least 1. */
export const fittingExaggeration = ({ length, lowest, highest }: Section, share: number): number =>
  EXAGGERATIONS.findLast((times) => (highest - lowest) * times <= share * length) ?? 1;
