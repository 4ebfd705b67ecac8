import type { Extent, Item, Place, Scene } from '../../map/scene/scene';
import type { JudgedResult } from '../../domain/lab/site-results';
import type { Site } from '../../domain/site/site';
import { layoutSheetBoxes, type PlacedBox, type Spot } from '../../map/scene/box-layout';
import { placeOf } from '../../map/scene/from-locations';
import {
  boxSize,
  formsOf,
  heldBox,
  resultBoxes,
  SHEET_BOX,
  type ResultBox,
} from '../../map/scene/from-results';

/** A box of results where it stands on the sheet, px from the corner of the map. */
export type SheetBox = PlacedBox & Pick<ResultBox, 'lines' | 'more'>;

/** Room along the edges for the sheet's own bar and north mark, px. */
const EDGE = { left: 16, top: 8, right: 48, bottom: 44 };

/** The share of the screen's sizes a sheet is drawn at. */
const SHARE = 0.75;

/** Places no box may cover: heads and names of gauged points where they usually stand, and the arrow. */
function keptClear(item: Item, onSheet: (place: Place) => Spot): Spot[] {
  if (item.kind === 'arrow' && item.layer === 'arrow') {
    const [from, to] = [onSheet(item.tail), onSheet(item.head)];
    const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 16));
    return Array.from({ length: steps + 1 }, (_, i): Spot => [
      from[0] + ((to[0] - from[0]) * i) / steps,
      from[1] + ((to[1] - from[1]) * i) / steps,
    ]);
  }
  if (item.kind !== 'text' || item.layer !== 'posted-heads') return [];
  const [x, y] = onSheet(item.at);
  return [14, 30, 46, 62].flatMap((right): Spot[] => [
    [x + right * SHARE, y + 16 * SHARE],
    [x + right * SHARE, y - 12 * SHARE],
  ]);
}

/** The boxes of results of a sheet, and the points that found no room. */
export function sheetBoxes(
  site: Site,
  results: readonly JudgedResult[],
  { west, south, east, north }: Extent,
  [width, height]: Spot,
  scene: Scene,
): { readonly boxes: readonly SheetBox[]; readonly without: readonly string[] } {
  const onSheet = ([e, n]: readonly [number, number]): Spot => [
    ((e - west) / (east - west)) * width,
    ((north - n) / (north - south)) * height,
  ];
  const wanted = resultBoxes(site, results);
  const { placed, left } = layoutSheetBoxes(
    wanted.flatMap((box) => {
      const at = onSheet(box.at);
      if (at[0] < 0 || at[1] < 0 || at[0] > width || at[1] > height) return [];
      const sizes = formsOf(box).map((form) => boxSize(form, SHEET_BOX));
      return [{ who: box.who, at, sizes, held: heldBox(site, box.who, SHEET_BOX) }];
    }),
    [
      ...[...site.locations.values()].flatMap((one) => {
        const at = placeOf(one);
        return at ? [onSheet(at)] : [];
      }),
      ...scene.flatMap((item) => keptClear(item, onSheet)),
    ],
    { left: EDGE.left, top: EDGE.top, right: width - EDGE.right, bottom: height - EDGE.bottom },
  );
  const byWho = new Map(wanted.map((box) => [box.who, formsOf(box)]));
  return {
    boxes: placed.flatMap((one) => {
      const form = byWho.get(one.who)?.[one.form];
      return form ? [{ ...one, lines: form.lines, more: form.more }] : [];
    }),
    without: left,
  };
}
