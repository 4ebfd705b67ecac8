import type { Extent, Place, Scene } from '../../map/scene/scene';
import type { JudgedResult } from '../../domain/lab/site-results';
import type { Site } from '../../domain/site/site';
import type { BoxLayout, PlacedBox, Spot } from '../../map/scene/box-layout';
import type { SheetQuestion } from '../../map/scene/layout-away';
import type { Box } from '../../map/scene/place-labels';
import { FLOW } from '../../map/scene/from-flow';
import { drawnPlaces, placeOf } from '../../map/scene/from-locations';
import {
  boxSize,
  formsOf,
  heldBox,
  resultBoxes,
  SHEET_BOX,
  type ResultBox,
} from '../../map/scene/from-results';
import { wordsPlaced } from '../../map/scene/svg';

/** A box of results where it stands on the sheet, px from the corner of the map. */
export type SheetBox = PlacedBox & Pick<ResultBox, 'lines' | 'more'>;

/** Room along the edges for the sheet's own bar and north mark, px. */
const EDGE = { left: 16, top: 8, right: 48, bottom: 44 };

/** The share of the screen's sizes a sheet is drawn at. */
export const SHEET_SHARE = 0.75;

/** Where the bar and the north mark of a sheet lie over its map, px. */
export const sheetFurniture = ([right, bottom]: Spot): Box[] => [
  { left: right - 46, right, top: 0, bottom: 76 },
  { left: 0, right: 300, top: bottom - 42, bottom },
];

/** Places along a stretch, near enough for none of it to be covered. */
function along(from: Spot, to: Spot): Spot[] {
  const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 16));
  return Array.from({ length: steps + 1 }, (_, i): Spot => [
    from[0] + ((to[0] - from[0]) * i) / steps,
    from[1] + ((to[1] - from[1]) * i) / steps,
  ]);
}

/** Places no box may cover: the arrow and its words, heads, and the names of gauged points, where they stand. */
function keptClear(
  scene: Scene,
  extent: Extent,
  [width, height]: Spot,
  onSheet: (place: Place) => Spot,
): Spot[] {
  const gauged = new Set(
    scene.flatMap((item) => (item.layer === 'posted-heads' ? [item.who] : [])),
  );
  const words = wordsPlaced(scene, { extent, width, height }, SHEET_SHARE);
  return [
    ...scene.flatMap((item) =>
      item.kind === 'arrow' && item.layer === 'arrow'
        ? along(onSheet(item.tail), onSheet(item.head))
        : [],
    ),
    ...words.flatMap(({ item: { layer, who }, box: { left, right, top, bottom } }) => {
      const isKept =
        layer === 'posted-heads' ||
        (layer === 'captions' && who === FLOW) ||
        (layer === 'point-labels' && gauged.has(who));
      const middle = (top + bottom) / 2;
      return isKept ? along([left, middle], [right, middle]) : [];
    }),
  ];
}

/** Boxes of results as they are asked for, with what each says in each of its forms. */
export type BoxesAsked = SheetQuestion & {
  readonly forms: ReadonlyMap<string, readonly ResultBox[]>;
};

/** The boxes of results of a sheet, and the points that found no room. */
export type BoxesPlaced = {
  readonly boxes: readonly SheetBox[];
  readonly without: readonly string[];
};

/** What is asked for a sheet: a box for each point on it that has results, clear of what it must not cover. */
export function boxesAsked(
  site: Site,
  results: readonly JudgedResult[],
  extent: Extent,
  [width, height]: Spot,
  scene: Scene,
): BoxesAsked {
  const { west, south, east, north } = extent;
  const onSheet = ([e, n]: readonly [number, number]): Spot => [
    ((e - west) / (east - west)) * width,
    ((north - n) / (north - south)) * height,
  ];
  const wanted = resultBoxes(site, results);
  // A well of a nest may be drawn beside its place.
  const drawnAt = drawnPlaces(scene);
  return {
    forms: new Map(wanted.map((box) => [box.who, formsOf(box)])),
    requests: wanted.flatMap((box) => {
      const at = onSheet(drawnAt.get(box.who) ?? box.at);
      if (at[0] < 0 || at[1] < 0 || at[0] > width || at[1] > height) return [];
      const sizes = formsOf(box).map((form) => boxSize(form, SHEET_BOX));
      return [{ who: box.who, at, sizes, held: heldBox(site, box.who, SHEET_BOX) }];
    }),
    points: [
      ...[...site.locations.values()].flatMap((one) => {
        const at = drawnAt.get(one.id) ?? placeOf(one);
        return at ? [onSheet(at)] : [];
      }),
      ...keptClear(scene, extent, [width, height], onSheet),
    ],
    window: {
      left: EDGE.left,
      top: EDGE.top,
      right: width - EDGE.right,
      bottom: height - EDGE.bottom,
    },
  };
}

/** The boxes as they were laid out. */
export const boxesPlaced = ({ forms }: BoxesAsked, { placed, left }: BoxLayout): BoxesPlaced => ({
  boxes: placed.flatMap((one) => {
    const form = forms.get(one.who)?.[one.form];
    return form ? [{ ...one, lines: form.lines, more: form.more }] : [];
  }),
  without: left,
});
