import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { Site } from '../../site/site';
import type { GaugedScreen } from '../../water/event-heads';
import type { Finding, Rule } from '../finding';
import { feet, finding, said } from '../words';

/** Densities of petroleum products run from about 0.7 to 0.95; others are asked about. Common practice, no source. */
const USUAL_DENSITY = { least: 0.65, most: 0.98 };

/** A layer of this and more is looked for again next time. */
const WORTH_LOOKING_FOR = feet(0.05);

/** Floating product that was not corrected for, or whose density is not known. */
export const product: Rule = ({ site, event, heads }) =>
  heads.flatMap((one): Finding[] => {
    if (one.leftOut === 'read-again') return [];
    const doubt = one.reading.depth_to_product ? withProduct(site, one) : missing(site, one);
    if (!doubt) return [];
    return [
      finding('floating product', one.screen.id, event, {
        severity: one.class === 'push' ? 'note' : doubt.severity,
        who: [one.location.id],
        says: doubt.says,
        todo: doubt.todo,
        cells: [
          cell('water_levels', one.reading, 'depth_to_product'),
          cell('water_levels', one.reading, 'product_density'),
        ],
      }),
    ];
  });

type Doubt = Pick<Finding, 'severity' | 'says' | 'todo'>;

function withProduct(site: Site, { screen, reading, leftOut }: GaugedScreen): Doubt | null {
  const { depth_to_water: water, depth_to_product: top, product_density: density } = reading;
  if (!water || !top || top.value === water.value) return null;
  const layer = `${said(site, water.value - top.value)} of product float in ${screen.id}`;
  if (leftOut === 'product-in-push-point')
    return {
      severity: 'note',
      says: `${layer}, a temporary push point: the layer in the rods is not that in the ground, and the level is left out.`,
      todo: 'Post it; use a well for the head here.',
    };
  if (!density)
    return {
      severity: 'caution',
      says: `${layer} and its density was not measured: the level is left out.`,
      todo: 'Measure the density of bailed product, or leave the well out and say so.',
    };
  if (density.value >= 1)
    return {
      severity: 'caution',
      says: `${layer} with a density of ${density.text}: product not lighter than water is not corrected for.`,
      todo: 'Check the density; dense product does not float.',
    };
  if (density.value >= USUAL_DENSITY.least && density.value <= USUAL_DENSITY.most) return null;
  return {
    severity: 'caution',
    says: `${layer} with an unusual density of ${density.text}, by which the head is corrected.`,
    todo: 'Check the density: relative to water it is a number like 0.83.',
  };
}

/** Product in a well at other events and none read now: nobody may have looked. */
function missing(site: Site, { screen, reading, head }: GaugedScreen): Doubt | null {
  if (!head) return null;
  const layers = (productIn(site).get(screen.id) ?? []).filter(
    ({ event }) => event !== reading.event,
  );
  const [seen] = layers.toSorted((a, b) => b.layer - a.layer);
  return seen
    ? {
        severity: 'caution',
        says: `No product was read in ${screen.id} this time, while ${said(site, seen.layer)} floated there in ${seen.event}: its head may be uncorrected.`,
        todo: 'Ask whether an interface probe was used; write the product down or that there was none.',
      }
    : null;
}

type Layer = { readonly screen: string; readonly event: string; readonly layer: number };

const kept = new WeakMap<Site['waterLevels'], ReadonlyMap<string, readonly Layer[]>>();

/** Layers of product worth looking for again, by screen. */
function productIn({ waterLevels }: Site): ReadonlyMap<string, readonly Layer[]> {
  const before = kept.get(waterLevels);
  if (before) return before;
  const layers = waterLevels.flatMap(({ screen, event, depth_to_water, depth_to_product }) => {
    const layer =
      depth_to_water && depth_to_product ? depth_to_water.value - depth_to_product.value : 0;
    return layer > WORTH_LOOKING_FOR ? [{ screen, event, layer }] : [];
  });
  const made = groupBy(layers, ({ screen }) => screen);
  kept.set(waterLevels, made);
  return made;
}
