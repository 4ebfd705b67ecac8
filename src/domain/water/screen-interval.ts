import { drivenFrom } from '../layout/driven';
import { intervalOf as drivenInterval, type IntervalProblem } from '../layout/interval';
import { waterIn, type Wetness } from '../layout/water-in-screen';
import { fail, ok, type Result } from '../result';
import type { Location, Screen } from '../site/schema';
import type { Metres } from '../units';
import type { Worked } from '../work';

/** Why a screen's interval is not known or cannot be. */
export type NoInterval = IntervalProblem['kind'];

const WORDS: Readonly<Record<NoInterval, string>> = {
  'no-tip-depth': 'the tip depth is not recorded',
  'no-exposed-length': 'the exposed length is not recorded',
  'top-below-base': 'the exposed length is not above zero: the top would be below the base',
  'base-above-ground': 'the tool offset is more than the tip depth',
  'screen-above-ground':
    'more screen is exposed than the depth of its base: it would stand above ground',
  'exposed-over-retraction': 'more screen is exposed than the rods were retracted',
  'retraction-over-screen': 'the rods were retracted further than the screen is long',
  'exposed-over-screen': 'more screen is exposed than the screen is long',
};

export const noIntervalWords = (reason: NoInterval) => WORDS[reason];

/** The part of a hole open to water. Depths below ground, positive down. */
export type ScreenInterval = {
  readonly topDepth: Worked<Metres>;
  readonly baseDepth: Worked<Metres>;
  /** Above the site's datum; null where the ground is not known. */
  readonly topElevation: Worked<Metres> | null;
  readonly baseElevation: Worked<Metres> | null;
  /** How the water at an elevation stands to it; null where the ground is not known. */
  readonly waterAt: (head: Metres) => Wetness | null;
};

/** The interval a screen opened, from its row and its location's. See `layout/interval.ts`. */
export function intervalOf(screen: Screen, location: Location): Result<ScreenInterval, NoInterval> {
  const found = drivenInterval(drivenFrom(screen, location));
  if (!found.ok) return fail(found.problem.kind);
  const { depth, elevation } = found.value;
  return ok({
    topDepth: depth.top,
    baseDepth: depth.base,
    topElevation: elevation.ok ? elevation.value.top : null,
    baseElevation: elevation.ok ? elevation.value.base : null,
    waterAt: (head) => {
      const water = waterIn(found.value, {
        value: head,
        from: { kind: 'citation', text: 'head' },
      });
      return water.ok ? water.value.wetness : null;
    },
  });
}
