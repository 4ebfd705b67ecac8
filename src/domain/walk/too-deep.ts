import { distanceBetween } from '../geometry/compass';
import type { Reach } from '../lab/delineation';
import type { AnalyteDelineation } from '../lab/site-delineation';
import type { JudgedResult } from '../lab/site-results';
import { length } from '../show';
import type { Location } from '../site/schema';
import type { Site } from '../site/site';
import { metres } from '../units';
import { NEST } from '../water/nests';
import { said, type Sentence } from './stop';

/** Such wells told on a wall. */
const MOST = 2;

const isOneNest = (a: Location, b: Location, { combinedFactor }: Reach) =>
  a.id === b.id ||
  (a.easting !== null &&
    a.northing !== null &&
    b.easting !== null &&
    b.northing !== null &&
    distanceBetween([a.easting.value, a.northing.value], [b.easting.value, b.northing.value]) <=
      NEST * combinedFactor);

/**
 * Deeper screens of a nest that do not exceed what is open below: people who see
 * the two marks one under the other ask why it is not closed.
 */
export function tooDeepSentences(
  { locations, settings }: Site,
  found: readonly AnalyteDelineation[],
  results: readonly JudgedResult[],
  reach: Reach,
): Sentence[] {
  const words = found.flatMap(({ key, answers }) =>
    answers.flatMap(({ location, side, next }) => {
      const from = locations.get(location);
      if (side !== 'below' || !from || !next || next.depth === null) return [];
      // The next push goes down by half of what closes.
      const tip = next.depth - reach.below / 2;
      return results.flatMap(({ reading, screen, location: there, judged }) => {
        const { verdict } = judged.outcome;
        const down = (screen?.tip_depth?.value ?? 0) - tip;
        const isUnder = verdict === 'does-not-exceed' || verdict === 'not-detected';
        if (reading.key !== key || !isUnder || !screen || down <= reach.below) return [];
        if (!there || !isOneNest(from, there, reach)) return [];
        const far = length(metres(down), settings.verticalUnit, 0);
        return [
          `Below ${location}, ${screen.id} does not exceed, but it is ${far} down: too far to close the depth between.`,
        ];
      });
    }),
  );
  return [...new Set(words)].slice(0, MOST).map((sentence) => said(sentence));
}
