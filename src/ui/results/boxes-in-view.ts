import type { JudgedSelection } from '../../domain/lab/judged-selection';
import {
  pointsWorstFirst,
  worstOfPoint,
  type SampledPoint,
} from '../../domain/lab/worst-of-points';
import type { Site } from '../../domain/site/site';
import { placeOf } from '../../map/scene/from-locations';
import { MOST_RESULTS, resultBox, type ResultBox } from '../../map/scene/from-results';
import type { Place } from '../../map/scene/scene';

/** Boxes room is looked for at most, the worst: many more than a screen has room for. */
const MOST_BOXES = 200;

export type PlacedPoint = SampledPoint & { readonly at: Place };

/** The points with results that have a place, the worst first. */
export const placedPoints = ({ locations }: Site, of: JudgedSelection): PlacedPoint[] =>
  pointsWorstFirst(of).flatMap((point) => {
    const location = locations.get(point.who);
    const at = location ? placeOf(location) : null;
    return at ? [{ ...point, at }] : [];
  });

/** The boxes of those points that are in view, the worst first. */
export const boxesInView = (
  of: JudgedSelection,
  points: readonly PlacedPoint[],
  isInView: (at: Place) => boolean,
): ResultBox[] =>
  points
    .filter(({ at }) => isInView(at))
    .slice(0, MOST_BOXES)
    .map((point) => {
      const { worst, more } = worstOfPoint(of, point, MOST_RESULTS);
      return resultBox(point.who, point.at, worst, more);
    });
