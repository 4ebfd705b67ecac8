import { fail, ok, type Result } from '../result';
import type { Metres } from '../units';
import type { Worked } from '../work';
import { lengthWorked, workedOut, type Given } from './given';
import type { Interval } from './interval';

/** How the water stands to an open screen. */
export type Wetness =
  | 'submerged' // at or above its top
  | 'straddling' // between base and top: product would enter
  | 'dry'; // at or below its base

export type WaterInScreen = {
  readonly wetness: Wetness;
  /** Water above the screen base; negative where it stands below. */
  readonly aboveBase: Worked<Metres>;
  /** Open length under water, from nothing to all of it. */
  readonly wetted: Metres;
};

export type NoWetness = { readonly kind: 'no-ground' | 'no-water' };

/**
 * How water stands to an interval. The three states are common practice; a
 * level exactly at the top counts as submerged, exactly at the base as dry.
 *
 * @param water  elevation of the water, expected or measured; null not known
 * @param depth  of the water below ground, for where no elevation of it is known; null not known
 */
export function waterIn(
  interval: Interval,
  water: Given | null,
  depth: Given | null = null,
): Result<WaterInScreen, NoWetness> {
  if (depth && !(water && interval.elevation.ok)) return waterBelowGround(interval, depth);
  if (!interval.elevation.ok) return fail({ kind: 'no-ground' });
  if (!water) return fail({ kind: 'no-water' });
  const { base, top } = interval.elevation.value;
  const aboveBase = lengthWorked(
    'Water above the screen base',
    'above',
    'water - base',
    water.value - base.value,
    [
      ['water', 'elevation of the water', water],
      ['base', 'elevation of the screen base', workedOut(base)],
    ],
  );
  return ok(standing(aboveBase, top.value - base.value));
}

function waterBelowGround({ depth: { base, top } }: Interval, depth: Given) {
  const aboveBase = lengthWorked(
    'Water above the screen base',
    'above',
    'base - water',
    base.value - depth.value,
    [
      ['base', 'screen base below ground', workedOut(base)],
      ['water', 'water below ground', depth],
    ],
  );
  return ok(standing(aboveBase, base.value - top.value));
}

const standing = (aboveBase: Worked<Metres>, open: number): WaterInScreen => ({
  wetness: wetnessOf(aboveBase.value, open),
  aboveBase,
  wetted: Math.min(open, Math.max(0, aboveBase.value)) as Metres,
});

/** A micrometre either way is rounding of recorded decimals. */
const ROUNDING = 1e-6;

const wetnessOf = (above: number, open: number): Wetness =>
  above >= open - ROUNDING ? 'submerged' : above <= ROUNDING ? 'dry' : 'straddling';

/** A layer by depth below ground, as logged. */
export type Layer = {
  readonly name: string;
  readonly top: Given;
  readonly bottom: Given;
  /** From where it is estimated, where nobody logged it here. */
  readonly estimated?: string;
};

/** A contact that lies within an open screen. */
export type Contact = { readonly depth: Metres; readonly above: string; readonly below: string };

/**
 * The contacts an interval crosses: layers that end, with another kind below,
 * strictly between its top and base. Such an interval has no zone of its own.
 *
 * @param layers  from the top down
 */
export function contactsCrossed(interval: Interval, layers: readonly Layer[]): Contact[] {
  const { top, base } = interval.depth;
  return layers.flatMap((layer, i) => {
    const below = layers[i + 1];
    const depth = layer.bottom.value;
    const isWithin = depth > top.value + ROUNDING && depth < base.value - ROUNDING;
    return below && isWithin && below.name !== layer.name
      ? [{ depth, above: layer.name, below: below.name }]
      : [];
  });
}
