import type { Location } from '../../domain/site/schema';
import { LINES, SIZES } from '../look/look';
import { extentOf, type Extent, type Item, type Place, type Scene } from './scene';
import { once } from './once';
import { NAME_SIDES } from './sides';
import type { PointKind, PointStatus } from './symbols';

/** Wells stand for years and are drawn larger than points open for an hour. */
const SIZE: Readonly<Record<PointKind, number>> = {
  'direct push': 15,
  'monitoring well': 18,
  piezometer: 16,
  'staff gauge': 20,
  'supply well': 19,
};

/** From a point to the words beside it, px. */
export const besidePoint = (kind: PointKind) => SIZE[kind] / 2 + 3.5;

/** Less than this between stake and hole is not worth a line, metres. */
const MOVED = 0.5;

const place = (east: Location['easting'], north: Location['northing']): Place | null =>
  east && north ? [east.value, north.value] : null;

/** Where a location is, or while it is only planned where it is to be; null when neither is known. */
export const placeOf = (location: Location): Place | null =>
  place(location.easting, location.northing) ??
  place(location.planned_easting, location.planned_northing);

/** "Direct push, decommissioned". */
export const locationWords = ({ kind, status }: Location) =>
  `${kind.charAt(0).toUpperCase()}${kind.slice(1)}, ${status}`;

/** A location as its symbol and its name, and the way from its stake where it was moved. */
export const locationItems = once((location: Location): readonly Item[] => {
  const at = placeOf(location);
  if (at === null) return [];
  const kind: PointKind = location.kind;
  const status: PointStatus = location.status;
  const common = { who: location.id } as const;
  const staked = place(location.planned_easting, location.planned_northing);
  const moved = staked && Math.hypot(at[0] - staked[0], at[1] - staked[1]) > MOVED ? staked : null;
  return [
    ...(moved
      ? [
          {
            ...common,
            kind: 'line',
            layer: 'stake-offsets',
            path: [moved, at],
            weight: LINES.thin,
            colour: 'ink-soft',
            dash: 'dotted',
            means: 'Staked there, pushed here',
          } as const,
        ]
      : []),
    {
      ...common,
      kind: 'symbol',
      layer: 'points',
      at,
      shape: `${kind}, ${status}`,
      size: SIZE[kind],
      colour: 'ink',
      means: locationWords(location),
    },
    {
      ...common,
      kind: 'text',
      layer: 'point-labels',
      at,
      text: location.id,
      sides: NAME_SIDES,
      away: besidePoint(kind),
      size: SIZES.note,
      face: 'regular',
      colour: 'ink',
      priority: kind === 'direct push' ? 3 : 2,
    },
  ];
});

/** Where each point of a scene is drawn, by its id: at its place, or beside it in a nest. */
export const drawnPlaces = (scene: Scene): ReadonlyMap<string, Place> =>
  new Map(
    scene.flatMap((item) =>
      item.kind === 'symbol' && item.layer === 'points' && item.who !== undefined
        ? [[item.who, item.at]]
        : [],
    ),
  );

/** How far from the middle of the points, in their usual spread, one is taken for a mistake. */
const FAR = 12;

/**
 * The rectangle around the points of a site, without those so far off the
 * others that they can only be in another grid; null when there is no point.
 */
export function pointsExtent(places: readonly Place[]): Extent | null {
  const middle = (values: readonly number[]) =>
    values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;
  const [e, n] = [middle(places.map(([east]) => east)), middle(places.map(([, north]) => north))];
  const apart = ([east, north]: Place) => Math.hypot(east - e, north - n);
  const usual = Math.max(middle(places.map(apart)), 1);
  return extentOf(places.filter((at) => apart(at) <= FAR * usual));
}
