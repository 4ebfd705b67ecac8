import { BAND_EDGES, OUTLINE, type Extent } from '../../domain/lab/extent';
import { BAND_WORDS } from '../../domain/lab/extent-words';
import { LINES, SIZES, type Role } from '../look/look';
import type { AreaItem, Hatch, Item, LineItem, Place, TextItem } from './scene';

/** Where ground metres about the middle of the points lie in the grid. */
type PlaceOf = (x: number, y: number) => Place;

/** Each band by its own pattern, so that no colour is needed; the least likely is left bare. */
const BAND_LOOKS: readonly (null | { pattern: Hatch; fill: Role | null })[] = [
  null,
  { pattern: 'dots', fill: null },
  { pattern: 'diagonal', fill: null },
  { pattern: 'crossed', fill: 'signal-wash' },
];

/** The chance of exceeding as bands, each with its pattern and its edges labelled in percent. */
export function chanceItems({ bands, edges, labels }: Extent, placeOf: PlaceOf): Item[] {
  const areas = bands.flatMap((polygons, band): AreaItem[] => {
    const look = BAND_LOOKS[band];
    if (!look || polygons.length === 0) return [];
    const ring = (polygon: (typeof polygons)[number]) => {
      const places = polygon.map(([x, y]) => placeOf(x, y));
      return [...places, ...places.slice(0, 1)];
    };
    return [
      {
        kind: 'area',
        layer: 'extent-chance',
        polygons: polygons.map((polygon) => [ring(polygon)]),
        ...(look.fill ? { fill: look.fill } : {}),
        hatch: { pattern: look.pattern, colour: 'line' },
        means: BAND_WORDS[band] ?? '',
      },
    ];
  });
  const lines = edges.map(({ points }): LineItem => ({
    kind: 'line',
    layer: 'extent-outline',
    path: points.map(([x, y]) => placeOf(x, y)),
    weight: LINES.thin,
    colour: 'ink-soft',
    dash: 'dotted',
    means: `Chance of exceeding ${BAND_EDGES.filter((edge) => edge !== OUTLINE)
      .map((edge) => `${Math.round(edge * 100)} %`)
      .join(', ')}`,
  }));
  return [...areas, ...lines, ...labelItems(labels, placeOf)];
}

const labelItems = (labels: Extent['labels'], placeOf: PlaceOf): TextItem[] =>
  labels.map(({ at: [x, y], turned, level }) => ({
    kind: 'text',
    layer: 'captions',
    at: placeOf(x, y),
    text: `${Math.round(level * 100)} %`,
    sides: ['centre'],
    away: 0,
    size: SIZES.fine,
    face: 'semibold',
    colour: 'ink',
    priority: 3,
    turned: 0 - turned,
  }));

/** The outline, dashed where no point is near, and a cross over each point that contradicts it. */
export function extentItems({ outline, contradictions }: Extent, placeOf: PlaceOf): Item[] {
  const lines = outline.map(({ points, inferred }): LineItem => ({
    kind: 'line',
    layer: 'extent-outline',
    path: points.map(([x, y]) => placeOf(x, y)),
    weight: LINES.heavy,
    colour: 'signal',
    casing: 1,
    ...(inferred ? { dash: 'dashed' as const } : {}),
    means: `Outline of the extent: exceeding is as likely as not${inferred ? ', inferred' : ''}`,
  }));
  const against = contradictions.map(({ point: { id, x, y } }): Item => ({
    kind: 'symbol',
    layer: 'extent-outline',
    who: id,
    at: placeOf(x, y),
    shape: 'cross',
    size: 34,
    colour: 'signal',
    means: 'A point that contradicts the outline',
  }));
  return [...lines, ...against];
}

/** From ground metres about the middle of an extent's points to places in the grid. */
export const extentPlaces =
  (
    centre: { readonly easting: number; readonly northing: number },
    combinedFactor: number | null,
  ): PlaceOf =>
  (x, y) => [
    centre.easting + x * (combinedFactor ?? 1),
    centre.northing + y * (combinedFactor ?? 1),
  ];
