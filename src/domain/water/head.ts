import { cell, recorded, worked } from '../site/cite';
import type { Row, Written } from '../site/schema';
import { decimalsIn } from '../show';
import { metres, type LengthUnit, type Metres } from '../units';
import type { Worked } from '../work';

type Reading = Row<'water_levels'>;
type Depth = Written<Metres, LengthUnit>;

/** "2025-10-15 09:21", or the event where no time was written. */
const whenRead = ({ time, event }: Reading) => time?.replace('T', ' ') ?? event;

/**
 * Elevation of the water in a screen: measuring point less depth to water, the
 * depth positive down from the same mark. (EPA 530/R-93-001, 1992, ch. 4.)
 */
export function waterElevation(mp: Worked<Metres>, reading: Reading, depth: Depth): Worked<Metres> {
  const value = metres(mp.value - depth.value);
  return {
    value,
    work: {
      title: `Head in ${reading.screen}, ${whenRead(reading)}`,
      symbol: 'head',
      formula: 'mp - dtw',
      terms: [
        worked('mp', 'elevation of the measuring point', mp),
        recorded('dtw', 'depth to water', depth, cell('water_levels', reading, 'depth_to_water')),
      ],
      answer: { value, dimension: 'length' },
      decimals: Math.max(mp.work.decimals, decimalsIn(depth.text)),
    },
  };
}

/**
 * The head without the product floating on the water: a column of product
 * presses like `density` times its height of water, so
 * head = mp − dtw + (dtw − dtp)·density. (Basis: hydrostatics; checked against
 * a public monitoring report, 0.32 ft at 0.83 raising a level 0.27 ft.)
 *
 * @param density  relative to water, below 1
 */
export function headUnderProduct(
  measured: Worked<Metres>,
  reading: Reading,
  water: Depth,
  product: Depth,
  density: Written,
): Worked<Metres> {
  const thickness = thicknessOf(reading, water, product);
  const value = metres(measured.value + thickness.value * density.value);
  return {
    value,
    work: {
      title: `Head in ${reading.screen} corrected for product, ${whenRead(reading)}`,
      symbol: 'head',
      formula: 'measured + thickness * density',
      terms: [
        worked('measured', 'elevation of the water under the product', measured),
        worked('thickness', 'thickness of the product', thickness),
        {
          symbol: 'density',
          name: 'density of the product, water 1',
          value: density.value,
          dimension: 'number',
          text: density.text,
          from: cell('water_levels', reading, 'product_density'),
        },
      ],
      answer: { value, dimension: 'length' },
      decimals: measured.work.decimals,
    },
  };
}

function thicknessOf(reading: Reading, water: Depth, product: Depth): Worked<Metres> {
  const value = metres(water.value - product.value);
  return {
    value,
    work: {
      title: `Product in ${reading.screen}`,
      symbol: 'thickness',
      formula: 'dtw - dtp',
      terms: [
        recorded('dtw', 'depth to water', water, cell('water_levels', reading, 'depth_to_water')),
        recorded(
          'dtp',
          'depth to product',
          product,
          cell('water_levels', reading, 'depth_to_product'),
        ),
      ],
      answer: { value, dimension: 'length' },
      decimals: Math.max(decimalsIn(water.text), decimalsIn(product.text)),
    },
  };
}
