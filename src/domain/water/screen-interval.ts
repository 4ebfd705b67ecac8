import { cell, recorded } from '../site/cite';
import { decimalsIn } from '../show';
import type { Location, Screen } from '../site/schema';
import { metres, type Metres } from '../units';
import type { Worked } from '../work';

/** Why a screen's interval is not known or cannot be. */
export type NoInterval =
  | 'tip-depth-unknown'
  | 'exposed-length-unknown'
  | 'exposed-over-depth'
  | 'exposed-over-retraction'
  | 'exposed-over-screen'
  | 'offset-over-depth';

const WORDS: Readonly<Record<NoInterval, string>> = {
  'tip-depth-unknown': 'the tip depth is not recorded',
  'exposed-length-unknown': 'the exposed length is not recorded',
  'exposed-over-depth':
    'more screen is exposed than the depth of its base: it would stand above ground',
  'exposed-over-retraction': 'more screen is exposed than the rods were retracted',
  'exposed-over-screen': 'more screen is exposed than the screen is long',
  'offset-over-depth': 'the tool offset is more than the tip depth',
};

export const noIntervalWords = (reason: NoInterval) => WORDS[reason];

/** The part of a hole open to water. Depths below ground, positive down. */
export type ScreenInterval = {
  readonly topDepth: Worked<Metres>;
  readonly baseDepth: Worked<Metres>;
  /** Above the site's datum; null where the ground is not known. */
  readonly topElevation: Worked<Metres> | null;
  readonly baseElevation: Worked<Metres> | null;
};

/** A hair of slack for lengths that come from sums of hundredths, in metres. */
const HAIR = 1e-9;

/**
 * The interval a screen opened: base = tip − tool offset, top = base − exposed
 * length, elevation = ground − depth. Exposed length is at most the retraction,
 * and at most the screen. (Basis: the geometry of the tool.)
 */
export function intervalOf(
  screen: Screen,
  location: Location,
):
  | { readonly ok: true; readonly value: ScreenInterval }
  | { readonly ok: false; readonly reason: NoInterval } {
  const { tip_depth: tip, tool_offset: offset, exposed_length: exposed } = screen;
  const no = (reason: NoInterval) => ({ ok: false, reason }) as const;
  if (!tip) return no('tip-depth-unknown');
  if (offset && offset.value > tip.value) return no('offset-over-depth');
  if (!exposed) return no('exposed-length-unknown');
  const base = tip.value - (offset?.value ?? 0);
  if (exposed.value > base + HAIR) return no('exposed-over-depth');
  if (screen.retraction && exposed.value > screen.retraction.value + HAIR)
    return no('exposed-over-retraction');
  if (screen.screen_length && exposed.value > screen.screen_length.value + HAIR)
    return no('exposed-over-screen');

  const baseDepth = baseDepthOf(screen, tip, offset);
  const topDepth = topDepthOf(screen, baseDepth, exposed);
  return {
    ok: true,
    value: {
      topDepth,
      baseDepth,
      topElevation: elevationOf('top', location, topDepth),
      baseElevation: elevationOf('base', location, baseDepth),
    },
  };
}

type Written = NonNullable<Screen['tip_depth']>;

function baseDepthOf(screen: Screen, tip: Written, offset: Written | null): Worked<Metres> {
  const value = metres(tip.value - (offset?.value ?? 0));
  return {
    value,
    work: {
      title: `Base of ${screen.id}, below ground`,
      symbol: 'base',
      formula: offset ? 'tip - offset' : 'tip',
      terms: [
        recorded('tip', 'tip depth', tip, cell('screens', screen, 'tip_depth')),
        ...(offset
          ? [
              recorded(
                'offset',
                'tip to screen base',
                offset,
                cell('screens', screen, 'tool_offset'),
              ),
            ]
          : []),
      ],
      answer: { value, dimension: 'length' },
      decimals: Math.max(decimalsIn(tip.text), decimalsIn(offset?.text ?? '')),
    },
  };
}

function topDepthOf(screen: Screen, base: Worked<Metres>, exposed: Written): Worked<Metres> {
  const value = metres(base.value - exposed.value);
  return {
    value,
    work: {
      title: `Top of ${screen.id}, below ground`,
      symbol: 'top',
      formula: 'base - exposed',
      terms: [
        {
          symbol: 'base',
          name: 'base of the screen',
          value: base.value,
          dimension: 'length',
          from: { kind: 'work', work: base.work },
        },
        recorded('exposed', 'exposed length', exposed, cell('screens', screen, 'exposed_length')),
      ],
      answer: { value, dimension: 'length' },
      decimals: Math.max(base.work.decimals, decimalsIn(exposed.text)),
    },
  };
}

function elevationOf(
  which: string,
  location: Location,
  depth: Worked<Metres>,
): Worked<Metres> | null {
  const ground = location.ground_elevation;
  if (!ground) return null;
  const value = metres(ground.value - depth.value);
  return {
    value,
    work: {
      title: `Elevation of the ${which}`,
      symbol: 'elevation',
      formula: `ground - ${which}`,
      terms: [
        recorded(
          'ground',
          `ground elevation at ${location.id}, ${location.ground_how ?? 'not said how known'}`,
          ground,
          cell('locations', location, 'ground_elevation'),
        ),
        {
          symbol: which,
          name: `depth of the ${which}`,
          value: depth.value,
          dimension: 'length',
          from: { kind: 'work', work: depth.work },
        },
      ],
      answer: { value, dimension: 'length' },
      decimals: Math.max(depth.work.decimals, decimalsIn(ground.text)),
    },
  };
}

/** Where the water stands in a screen. */
export type WaterInScreen = 'submerged' | 'straddling' | 'dry';

/** Submerged: at or above the top. Straddling: between top and base. Dry: at or below the base. */
export function waterInScreen(
  head: Metres,
  { topElevation, baseElevation }: ScreenInterval,
): WaterInScreen | null {
  if (!topElevation || !baseElevation) return null;
  if (head <= baseElevation.value) return 'dry';
  return head >= topElevation.value ? 'submerged' : 'straddling';
}
