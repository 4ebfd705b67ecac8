import { nearestOnPiece } from '../geometry/nearest';
import { piecesOfLine, type Line, type XY } from '../geometry/shape';
import { readShape } from '../geometry/wkt';
import type { Verdict } from '../lab/verdict';
import type { Feature, Location, Screen, Stratum } from '../site/schema';
import type { Site } from '../site/site';
import { metres, type Metres } from '../units';
import type { GaugedScreen } from './event-heads';
import { intervalOf } from './screen-interval';

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

export type Section = {
  /** Ground length of the line. */
  readonly length: Metres;
  /** From the beginning of the line on. */
  readonly columns: readonly SectionColumn[];
  /** Points within the corridor that cannot be drawn: their ground elevation is not known. */
  readonly withoutGround: readonly string[];
  /** Heads of the zone that count, in order along the line. */
  readonly water: readonly { readonly at: Metres; readonly head: Metres; readonly id: string }[];
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
 * @param verdicts  the worst verdict of each screen, by its id
 */
export function sectionOf(
  site: Site,
  line: Line,
  corridor: Metres,
  heads: readonly GaugedScreen[],
  zone: string | null,
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
  const water = columns.flatMap(({ at, screens }) =>
    screens.flatMap(({ gauged: one }) =>
      one?.head && one.leftOut === null && one.screen.zone === zone
        ? [{ at, head: one.head.value, id: one.screen.id }]
        : [],
    ),
  );
  const elevations = columns.flatMap(({ ground, layers, screens }) => [
    ground,
    ...layers.map(({ base }) => base),
    ...screens.map(({ base }) => base),
    ...screens.flatMap(({ gauged: one }) => one?.head?.value ?? []),
  ]);
  return {
    length: metres(
      piecesOfLine(line).reduce((sum, [a, b]) => sum + Math.hypot(b[0] - a[0], b[1] - a[1]), 0) /
        factor,
    ),
    columns,
    withoutGround,
    water,
    lowest: metres(Math.min(...elevations)),
    highest: metres(Math.max(...elevations)),
  };
}

/** Vertical exaggerations to choose from. */
export const EXAGGERATIONS = [1, 2, 5, 10, 20, 50, 100] as const;

/** The largest exaggeration at which the section is no taller than `share` of its length; at least 1. */
export const fittingExaggeration = ({ length, lowest, highest }: Section, share: number): number =>
  EXAGGERATIONS.findLast((times) => (highest - lowest) * times <= share * length) ?? 1;
