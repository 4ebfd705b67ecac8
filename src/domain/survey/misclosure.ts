import { metres, type LengthUnit, type Metres } from '../units';
import type { Worked } from '../work';
import { closureOf, type LevelLoop, type Shot } from './level-loop';

/** An order of levelling: misclosure allowed for each root of a length. */
export type LevelOrder = {
  readonly name: string;
  readonly source: string;
  readonly known: 'as quoted' | 'from memory' | 'common practice';
} & ({ readonly millimetresPerRootKilometre: number } | { readonly feetPerRootMile: number });

const FGCC =
  'Federal Geodetic Control Committee, 1984, Standards and specifications for geodetic control networks, §3.5';

/** 12 mm√km and 0.05 ft√mile are one rule to 0.1 %. */
export const LEVEL_ORDERS: readonly LevelOrder[] = [
  {
    name: 'First order, class I',
    millimetresPerRootKilometre: 4,
    source: FGCC,
    known: 'from memory',
  },
  {
    name: 'First order, class II (loop)',
    millimetresPerRootKilometre: 5,
    source: FGCC,
    known: 'from memory',
  },
  {
    name: 'Second order, class I',
    millimetresPerRootKilometre: 6,
    source: FGCC,
    known: 'from memory',
  },
  {
    name: 'Second order, class II',
    millimetresPerRootKilometre: 8,
    source: FGCC,
    known: 'from memory',
  },
  { name: 'Third order', millimetresPerRootKilometre: 12, source: FGCC, known: 'as quoted' },
  {
    name: 'Third order, feet and miles',
    feetPerRootMile: 0.05,
    source: 'Common practice; the same rule as 12 mm times the root of the kilometres',
    known: 'common practice',
  },
];

/**
 * Misclosure an order allows over a length of levels: so much times the square
 * root of the kilometres or miles. The numbers of the work are millimetres and
 * kilometres, or feet and miles, as the rule has them.
 */
export function allowable(order: LevelOrder, length: Metres): Worked<Metres> {
  const metric = 'millimetresPerRootKilometre' in order;
  const each = metric ? order.millimetresPerRootKilometre : order.feetPerRootMile;
  const run = metric ? length / 1000 : length / METRES_PER_MILE;
  const answer = each * Math.sqrt(run);
  return {
    value: metric ? metres(answer / 1000) : metres(answer, 'ft'),
    work: {
      title: `Allowable misclosure, ${order.name}, in ${metric ? 'millimetres' : 'feet'}`,
      symbol: 'allowable',
      formula: 'each * sqrt(run)',
      terms: [
        {
          symbol: 'each',
          name: metric ? 'mm for the root of a kilometre' : 'ft for the root of a mile',
          value: each,
          dimension: 'number',
          from: { kind: 'citation', text: order.source },
        },
        {
          symbol: 'run',
          name: metric ? 'length levelled, km' : 'length levelled, miles',
          value: run,
          dimension: 'number',
          from: { kind: 'citation', text: 'sum of the legs' },
        },
      ],
      answer: { value: answer, dimension: 'number' },
      decimals: metric ? 1 : 3,
    },
  };
}

const METRES_PER_MILE = metres(5280, 'ft');

/** A mistake in the book that would explain a misclosure. */
export type Suspect =
  /** The two readings on one line of the book, written in each other's column. */
  | { readonly kind: 'columns swapped'; readonly point: string; readonly order: number }
  /** The backsight and foresight of one set-up, read on each other's point. */
  | { readonly kind: 'set-up turned round'; readonly from: string; readonly to: string }
  /** Some reading off by whole units of the rod. */
  | { readonly kind: 'whole units'; readonly units: number; readonly unit: LengthUnit };

/**
 * What single mistakes would bring the misclosure within a limit. Two
 * backsights exchanged between set-ups leave no misclosure and are not found:
 * the sum of the backsights is the same.
 *
 * @param within  what would count as closed
 * @param rod     unit the rod is read in
 */
export function suspects(
  loop: LevelLoop,
  shots: readonly Shot[],
  within: Metres,
  rod: LengthUnit,
): Suspect[] {
  const misclosure = closureOf(loop)?.misclosure.value;
  if (misclosure === undefined || Math.abs(misclosure) <= within) return [];
  // A pair exchanged counts twice over, once wrongly added and once wrongly missed.
  const explains = (back: number, fore: number) =>
    Math.abs(misclosure - 2 * (back - fore)) <= within;

  const found: Suspect[] = [];
  let from = shots[0];
  for (const shot of shots.slice(1)) {
    const { point, order, backsight, foresight } = shot;
    const isTurning = backsight !== null || shot === shots.at(-1);
    if (backsight && foresight && explains(backsight.value, foresight.value))
      found.push({ kind: 'columns swapped', point, order });
    if (!isTurning) continue;
    if (from?.backsight && foresight && explains(from.backsight.value, foresight.value))
      found.push({ kind: 'set-up turned round', from: from.point, to: point });
    from = shot;
  }
  const one = metres(1, rod);
  const units = Math.round(misclosure / one);
  if (units !== 0 && Math.abs(misclosure - units * one) <= within)
    found.push({ kind: 'whole units', units, unit: rod });
  return found;
}
