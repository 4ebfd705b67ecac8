import { notPlanned } from '../domain/walk/next-stop';
import { namedPoints } from '../domain/walk/named-points';
import { pointsShown } from '../domain/walk/points-shown';
import type { Stop } from '../domain/walk/stop';
import { sectionLines } from '../domain/water/section';
import type { DrawnSurface } from '../domain/water/drawn-surface';
import type { Site } from '../domain/site/site';
import { nextPushes } from '../domain/lab/site-delineation';
import { sidesTold } from '../domain/walk/delineation-stop';
import { groundPlaces } from './ground-places';
import { lengthOf, stretches } from './scene/along';
import { contourDecimals, contourItems } from './scene/from-contours';
import { openSideItems } from './scene/from-delineation';
import { metresPerPixel, type Size } from './camera';
import { contoursParted } from './scene/contour-labels';
import { nestsApart } from './scene/nests';
import type { Box } from './scene/place-labels';
import type { Extent, Item, Scene } from './scene/scene';
import { wordsPlaced } from './scene/svg';
import { settled } from './scene/settled';
import { wholeWords } from './scene/whole-words';
import { siteScene, type Drawing } from './site-scene';

/** Contours of a stop, and the interval they are drawn at in the site's vertical unit. */
export type StopSurface = { readonly surface: DrawnSurface; readonly interval: number };

/** A window on a scene: what it shows, its size in px, what a painter multiplies sizes by, what lies over it. */
export type Reading = {
  readonly seen: Extent;
  readonly size: Size;
  readonly magnify: number;
  readonly taken?: readonly Box[];
};

/** A scene of a site laid out for being read rather than moved about in: nests apart, words where they can be read. */
export function readable(
  scene: Scene,
  site: Site,
  { seen, size, magnify, taken = [] }: Reading,
): Scene {
  const depths = tipDepths(site);
  const scale = metresPerPixel(seen, size);
  const apart = nestsApart(
    withoutShort(scene, scale * magnify),
    scale,
    magnify,
    (who) => depths.get(who) ?? 0,
  );
  const laid = wholeWords(apart, seen, size, magnify, taken);
  const [width, height] = size;
  const placed = wordsPlaced(laid, { extent: seen, width, height }, magnify, taken);
  return settled(contoursParted(laid, placed, scale * magnify), placed, magnify);
}

/** px from a stake to a point that its symbol hides. */
const HIDDEN = 12;

/** A scene without the ways from stakes that lie under the symbols of their points, which a legend would name. */
const withoutShort = (scene: Scene, metresInPx: number): Scene =>
  scene.filter((item) => {
    if (item.kind !== 'line' || item.layer !== 'stake-offsets') return true;
    return stretches(item.path).some((piece) => lengthOf(piece) >= HIDDEN * metresInPx);
  });

/** How deep the shallowest screen of each point goes, metres below ground; points without a depth left out. */
function tipDepths({ screens }: Site): ReadonlyMap<string, number> {
  const depths = new Map<string, number>();
  for (const { location, tip_depth } of screens.values())
    if (tip_depth)
      depths.set(location, Math.min(tip_depth.value, depths.get(location) ?? Infinity));
  return depths;
}

/** Layers of the names of points, and of what is drawn. */
const NAMES: readonly Item['layer'][] = ['point-labels', 'feature-labels'];

/** px that names stand further off before they are left out; those that are looked for, before they stand on something. */
const FURTHER = [6, 12];
const LOOKED_FOR = [...FURTHER, 20, 28, 40];
/** Those of wells with a head, which tells nobody anything without its well. */
const POSTED = [...FURTHER, 20];
/** Names of ground stand nearer, or they are taken for those of other ground. */
const BESIDE_GROUND = [...FURTHER, 18];

/** What of a stop its map is made from; names in its words are written before others. */
type DrawnStop = Pick<Stop, 'made' | 'view'> & Partial<Pick<Stop, 'title' | 'sentences'>>;

/**
 * The map at a stop: the site's own, with only the points that the stop is about,
 * and of the lines of section only the one that is shown, or all where somebody
 * kept the view.
 */
export function stopScene(
  drawing: Drawing,
  { made, view: { points, sides, shown, section }, ...words }: DrawnStop,
  contours: StopSurface | null,
): Scene {
  const { site, heads, results, flow } = drawing;
  const cutAlong = section === true ? sectionLines(site)[0]?.feature.id : undefined;
  const features =
    made === null
      ? site.features
      : site.features.filter(({ kind, id }) => kind !== 'section line' || id === cutAlong);
  const wanted = pointsShown(points, site, heads, results);
  const isWanted = ({ who, layer }: Item) =>
    wanted === null || who === undefined || !site.locations.has(who) || layer === 'selection'
      ? true
      : wanted.has(who);
  const told = sides ? sidesTold(site, shown) : [];
  const placeOf = groundPlaces(flow, site.grid.combinedFactor);
  const { title = '', sentences = [] } = words;
  const named = namedPoints(site, { title, sentences });
  const posted = new Set(shown.heads ? heads.map(({ location }) => location.id) : []);
  const first = (item: Item): Item => {
    if (item.kind !== 'text' || !NAMES.includes(item.layer)) return item;
    const isPoint = item.layer === 'point-labels';
    if (named.has(item.who ?? ''))
      return {
        ...item,
        // A source or a receptor takes its room with the points, after those that are named.
        layer: 'point-labels',
        priority: isPoint ? 0 : 1,
        always: item.always ?? isPoint,
        further: isPoint ? LOOKED_FOR : BESIDE_GROUND,
      };
    return isPoint ? { ...item, further: posted.has(item.who ?? '') ? POSTED : FURTHER } : item;
  };
  return [
    ...siteScene({ ...drawing, site: { ...site, features } })
      .filter(isWanted)
      .map(first),
    ...(sides
      ? openSideItems(site, made === 'next' ? notPlanned(site, told) : nextPushes(told))
      : []),
    ...(contours && placeOf
      ? contourItems(
          contours.surface,
          placeOf,
          site.settings.verticalUnit,
          contourDecimals(contours.interval),
        )
      : []),
  ];
}
