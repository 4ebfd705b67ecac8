import { fixed, significant } from '../show';
import { kaplanMeier, kaplanMeierQuantile } from './kaplan-meier';
import type { Series } from './over-time';

/**
 * A summary by Kaplan–Meier in a sentence: how many were detected, the median
 * and the mean, with nothing put in place of the non-detects.
 */
export function summarySentence({ points, unit }: Pick<Series, 'points' | 'unit'>): string {
  const seen = points.filter(({ detected }) => detected).length;
  const share = `Detected in ${seen} of ${points.length}`;
  const summary = kaplanMeier(points);
  if (summary === null) return `${share}: nothing more can be said of the distribution.`;
  const number = (value: number) => `${significant(value, 3)} ${unit}`;
  const median = kaplanMeierQuantile(summary, 0.5);
  const lowest = summary.rows[0]?.value ?? summary.lowestPutAt;
  const middle = median === null ? `median below ${number(lowest)}` : `median ${number(median)}`;
  const mean =
    summary.belowLowest > 0
      ? `mean about ${number(summary.mean)}, with the ${fixed(summary.belowLowest * 100, 0)} % below the lowest detection taken at ${number(summary.lowestPutAt)}`
      : `mean ${number(summary.mean)}`;
  return `${share}; by Kaplan–Meier ${middle}, ${mean}.`;
}
