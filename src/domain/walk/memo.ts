import { judgedAgainst, type JudgedResult } from '../lab/site-results';
import type { Site } from '../site/site';
import { eventWords } from './view-words';
import { plain, type Stop, type WalkOf } from './stop';
import { resultsTable, type ReportTable } from './report-tables';

/** Verdicts that settle a result: what has none of them belongs in the memo. */
const SETTLED = ['does-not-exceed', 'not-detected', 'no-level'];

/**
 * The field samples of an event that exceed a level or cannot be told, every
 * analyte and zone of them, whatever is chosen on the desk: the memo's words
 * count all of them too.
 */
const unsettledResults = (
  site: Site,
  { event, levelSet }: Pick<WalkOf, 'event' | 'levelSet'>,
): JudgedResult[] =>
  judgedAgainst(site, levelSet, { event, fieldSamples: true }).filter(
    ({ judged }) => !SETTLED.includes(judged.outcome.verdict),
  );

/** The same as a table, with the event it is of in its heading. */
export const unsettledTable = (
  site: Site,
  of: Pick<WalkOf, 'event' | 'levelSet'>,
): ReportTable => ({
  ...resultsTable(unsettledResults(site, of)),
  title: `Results that exceed a level or cannot be told, every analyte: ${eventWords(site, of.event)}`,
});

const hasWords = ({ sentences }: Stop) =>
  sentences.some((sentence) => plain(sentence).trim() !== '');

/** Stops whose words stand in the memo: all that say something, but for where the site is. */
export const memoStops = (told: readonly Stop[]) =>
  told.filter((stop) => stop.made !== 'where' && hasWords(stop));

/** Stops whose maps stand in it. */
export const memoFigures = (told: readonly Stop[]) =>
  told.filter(
    ({ made }) => made === 'way' || made === 'found' || made === 'exceeds' || made === null,
  );
