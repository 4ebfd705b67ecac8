import { metresPerPixel, type Size } from '../camera';
import { magnified } from './plain';
import { boxOf, meet, within, type Box } from './place-labels';
import type { Extent, Item, Place, Scene, TextItem } from './scene';

/**
 * A scene whose words are not cut by the edge of what is seen, nor stand on the
 * crosses of construction: sides on which they would are not tried, and words
 * with no side left are not drawn, but for those that always are and whose place
 * is seen. `size` is the window's in px; a painter multiplies sizes by `magnify`.
 */
export function wholeWords(scene: Scene, seen: Extent, size: Size, magnify: number): Scene {
  const scale = metresPerPixel(seen, size);
  const px = ([east, north]: Place) => ({
    x: (east - seen.west) / scale,
    y: (seen.north - north) / scale,
  });
  const window: Box = { left: 0, top: 0, right: size[0], bottom: size[1] };
  const crosses = scene.flatMap((item): Box[] => {
    if (item.kind !== 'symbol' || item.layer !== 'construction') return [];
    const { x, y } = px(item.at);
    const half = (item.size * magnify) / 2;
    return [{ left: x - half, right: x + half, top: y - half, bottom: y + half }];
  });
  const isClear = (box: Box) => within(box, window) && !crosses.some((one) => meet(one, box));
  const clear = (item: TextItem): Item[] => {
    const here = px(item.at);
    const drawn = magnified(item, magnify) as TextItem;
    const sides = item.sides.filter((side) => isClear(boxOf({ item: drawn, ...here }, side)));
    if (sides.length === item.sides.length) return [item];
    if (sides.length > 0) return [{ ...item, sides }];
    const { x, y } = here;
    const isSeen = within({ left: x, right: x, top: y, bottom: y }, window);
    return item.always && isSeen ? [item] : [];
  };
  return scene.flatMap((item) => (item.kind === 'text' ? clear(item) : [item]));
}
