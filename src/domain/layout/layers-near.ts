import type { XY } from '../geometry/shape';
import { distanceBetween } from '../geometry/compass';
import { fixed, unitText } from '../show';
import type { Site } from '../site/site';
import type { LengthUnit, Metres } from '../units';
import { groundOf } from './driven';
import { lengthWorked, workedOut, written, type Given } from './given';
import { groundBetween, type SurveyedGround } from './ground-elevation';
import { placeIn } from './replan';
import { cell } from '../site/cite';
import type { Layer } from './water-in-screen';

/** A layer as one boring has it, by elevation. */
type Met = { readonly id: string; readonly at: XY; readonly top: Given; readonly bottom: Given };

const nameOf = ({ class: soil, description }: Site['strata'][number]) =>
  soil ?? description ?? 'layer';

/** Where each layer was met, the first of its name in each boring whose ground is known. */
function metIn(site: Site): ReadonlyMap<string, Met[]> {
  const met = new Map<string, Met[]>();
  for (const layer of site.strata) {
    const location = site.locations.get(layer.location);
    const at = location && placeIn(location, site.settings.grid.unit);
    const ground = location && groundOf(location);
    const all = met.get(nameOf(layer)) ?? [];
    if (!at || !ground || all.some(({ id }) => id === layer.location)) continue;
    const elevation = (end: 'top' | 'bottom') =>
      workedOut(
        lengthWorked(
          `${end === 'top' ? 'Top' : 'Bottom'} of the ${nameOf(layer)} at ${layer.location}`,
          end,
          'ground - depth',
          ground.value - layer[end].value,
          [
            ['ground', 'ground elevation', ground],
            ['depth', 'depth as logged', written(layer[end], cell('strata', layer, end))],
          ],
        ),
      );
    met.set(nameOf(layer), [
      ...all,
      { id: layer.location, at, top: elevation('top'), bottom: elevation('bottom') },
    ]);
  }
  return met;
}

/**
 * Layers expected where nothing was logged, from the borings around: level
 * between each three of them, else as the nearest boring has it. They are
 * estimated and say from where; the deeper the trust, the nearer the boring.
 *
 * @returns a function from a place and its ground to its layers, the shallowest first; none where the ground is not known
 */
export function layersNear(site: Site): (at: XY, ground: Given | null) => readonly Layer[] {
  const { unit } = site.settings.grid;
  const layers = [...metIn(site)].map(([name, met]) => {
    const ends = (end: 'top' | 'bottom') =>
      groundBetween(met.map((one): SurveyedGround => ({ ...one, elevation: one[end] })));
    return { name, met, top: ends('top'), bottom: ends('bottom') };
  });
  return (at, ground) => {
    if (!ground) return [];
    return layers
      .flatMap(({ name, met, top, bottom }): Layer[] => {
        const [high, low] = [top(at), bottom(at)];
        const near = nearest(met, at);
        if (!near) return [];
        const between = high.ok && low.ok;
        const depth = (of: 'top' | 'bottom', elevation: Given) =>
          lengthWorked(
            `${of === 'top' ? 'Top' : 'Bottom'} of the ${name}, estimated`,
            of,
            'ground - elevation',
            Math.max(0, ground.value - elevation.value),
            [
              ['ground', 'ground elevation', ground],
              ['elevation', `${of} of the ${name}`, elevation],
            ],
          );
        const upper = depth('top', between ? renamed(high.value.elevation, name, 'top') : near.top);
        const lower = depth(
          'bottom',
          between ? renamed(low.value.elevation, name, 'bottom') : near.bottom,
        );
        if (!(lower.value > upper.value)) return [];
        const estimated = between
          ? `estimated between ${high.value.between.join(', ')}`
          : `estimated as at ${near.id}, ${inGrid(distanceBetween(near.at, at), unit)} off`;
        return [{ name, top: workedOut(upper), bottom: workedOut(lower), estimated }];
      })
      .sort((a, b) => a.top.value - b.top.value);
  };
}

const inGrid = (value: number, unit: LengthUnit) => `${fixed(value, 1)} ${unitText(unit)}`;

const nearest = (met: readonly Met[], at: XY): Met | null =>
  met.toSorted((a, b) => distanceBetween(a.at, at) - distanceBetween(b.at, at))[0] ?? null;

/** An elevation worked out between three points, said of a layer and not of the ground. */
function renamed(
  {
    value,
    work,
  }: { readonly value: Metres; readonly work: Parameters<typeof workedOut>[0]['work'] },
  layer: string,
  end: string,
): Given {
  const terms = work.terms.map((term) => ({
    ...term,
    name: term.name.replace(/^ground at (.*), surveyed$/, `${end} of the ${layer} at $1`),
  }));
  return workedOut({
    value,
    work: { ...work, terms, title: `Elevation of the ${end} of the ${layer}, estimated` },
  });
}
