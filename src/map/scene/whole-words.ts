import { metresPerPixel, type Size } from '../camera';
import { areaNamesBeside } from './area-names';
import { magnified } from './plain';
import { placesAlong } from './name-along';
import { boxOf, meet, standsOf, within, type Box } from './place-labels';
import {
  samePlace,
  type Extent,
  type Item,
  type Place,
  type Scene,
  type SymbolItem,
  type TextItem,
} from './scene';
import { boxAround, Underfoot } from './underfoot';

/** Captions may step back from their place by so many times their size, where they stand on too much near it. */
const STEPS_BACK = 3;

/** px from the symbols of another point at which a name is taken for its. */
const NEAR = 12;

/** px further off at which a name is read as ill as over a line. */
const FURTHER_OFF = 5;

/** Words that belong to a point and could be taken for those of another. */
const OF_POINTS: readonly TextItem['layer'][] = ['point-labels', 'posted-heads'];

const reachesOf = ({ layer, always, away, size, sides }: TextItem): number[] =>
  layer === 'captions' && always && sides.length > 1
    ? Array.from({ length: STEPS_BACK + 1 }, (_, step) => away + step * size)
    : [away];

/**
 * A scene whose words can be read from a distance. None are cut by the edge of
 * what is seen, nor stand on the crosses of construction: sides on which they
 * would are not tried, and words with no side left are not drawn, but for those
 * that always are and whose place is seen. Of the sides left, those come first
 * on which they stand on fewest lines and least hatching. Symbols that the edge
 * would cut are not drawn, nor the words of what is gone with them. `size` is
 * the window's in px, and `taken` what lies over it there; a painter multiplies
 * sizes by `magnify`.
 */
export function wholeWords(
  scene: Scene,
  seen: Extent,
  size: Size,
  magnify: number,
  taken: readonly Box[] = [],
): Scene {
  const scale = metresPerPixel(seen, size);
  const px = ([east, north]: Place): readonly [x: number, y: number] => [
    (east - seen.west) / scale,
    (seen.north - north) / scale,
  ];
  const window: Box = { left: 0, top: 0, right: size[0], bottom: size[1] };
  const symbolBox = (item: SymbolItem) => boxAround(magnified(item, magnify) as SymbolItem, px);
  const isCut = (item: Item) => {
    if (item.kind !== 'symbol') return false;
    const box = symbolBox(item);
    return meet(box, window) && !within(box, window);
  };
  const cut = scene.filter((item): item is SymbolItem => item.kind === 'symbol' && isCut(item));
  const isOfCut = (item: Item) =>
    item.kind === 'text' &&
    cut.some(({ who, at }) => who !== undefined && who === item.who && samePlace(at, item.at));
  const whole = scene.filter((item) => !isCut(item) && !isOfCut(item));
  const covered = whole
    .flatMap((item) =>
      item.kind === 'symbol' && item.layer === 'construction' ? [symbolBox(item)] : [],
    )
    .concat(taken);
  const underfoot = new Underfoot(whole, px, window, magnify);
  const points = new Set(
    whole.flatMap(({ layer, who }) => (layer === 'points' && who ? [who] : [])),
  );
  const isClear = (box: Box) => within(box, window) && !covered.some((one) => meet(one, box));
  /**
   * The name or the level of a point where it is read best, and not where it would be
   * taken for another's: no such name is drawn, while a level stands there at the last.
   */
  const besideItsPoint = (item: TextItem, who: string): Item[] => {
    const [x, y] = px(item.at);
    const drawn = magnified(item, magnify) as TextItem;
    const choices = standsOf(item).flatMap(({ side, further }, order) => {
      const box = boxOf({ item: drawn, x, y }, side, further * magnify);
      if (!isClear(box)) return [];
      const cost = underfoot.cost(box) + further / FURTHER_OFF;
      const isOwn = !points.has(who) || !underfoot.isBesideAnother(box, who, NEAR * magnify);
      return [{ side, further, cost, order, isOwn }];
    });
    const stands = choices
      .filter(({ isOwn }) => isOwn || item.always || item.layer === 'posted-heads')
      .toSorted((a, b) => Number(b.isOwn) - Number(a.isOwn) || a.cost - b.cost || a.order - b.order)
      .map(({ side, further }) => ({ side, further }));
    return stands.length > 0 ? [{ ...item, stands }] : item.always ? [item] : [];
  };
  /** The name of a line where along it it is read best. */
  const alongLine = (name: TextItem): TextItem => {
    const [best] = placesAlong(name, seen)
      .flatMap((item, order) => {
        const [x, y] = px(item.at);
        const drawn = magnified(item, magnify) as TextItem;
        const boxes = item.sides.map((side) => boxOf({ item: drawn, x, y }, side)).filter(isClear);
        if (boxes.length === 0) return [];
        const cost = Math.min(...boxes.map((box) => underfoot.cost(box)));
        return [{ item, cost, order }];
      })
      .toSorted((a, b) => a.cost - b.cost || a.order - b.order);
    return best?.item ?? name;
  };
  const readable = (given: TextItem): Item[] => {
    const item = given.along ? alongLine(given) : given;
    const [x, y] = px(item.at);
    if (!within({ left: x, right: x, top: y, bottom: y }, window)) return [];
    if (OF_POINTS.includes(item.layer) && item.who !== undefined)
      return besideItsPoint(item, item.who);
    const choices = reachesOf(item).flatMap((away, step) => {
      const drawn = magnified({ ...item, away }, magnify) as TextItem;
      return item.sides.flatMap((side) => {
        const box = boxOf({ item: drawn, x, y }, side);
        return isClear(box) ? [{ side, away, box, step }] : [];
      });
    });
    if (choices.length === 0) return item.always ? [item] : [];
    if (choices.length === 1 && item.sides.length === 1) return [item];
    const [best, ...others] = choices
      .map((choice) => ({ ...choice, cost: choice.step + underfoot.cost(choice.box) }))
      .toSorted((a, b) => a.cost - b.cost);
    if (!best) return [item];
    const { away } = best;
    const sides = [best, ...others.filter((other) => other.away === away)].map(({ side }) => side);
    const isSame = away === item.away && sides.join() === item.sides.join();
    return isSame ? [item] : [{ ...item, away, sides }];
  };
  return areaNamesBeside(whole, scale, magnify).flatMap((item) =>
    item.kind === 'text' ? readable(item) : [item],
  );
}
