import { allOf } from '../site/read-table';
import type { Site } from '../site/site';
import { siteWriter, type SiteColumns } from './column-writer';
import { readColumns } from './read-columns';
import { resultsIn, siteReaderOf, type SiteReader, type SiteReading } from './site-results';

const wholes = new WeakMap<SiteReader, SiteColumns>();

/** Every result of a site: what `resultsOf` has, row by row. */
export const columnsOf = (site: Site): SiteColumns => allOf(readingColumns(site));

/** Whether `columnsOf` answers at once. */
export const hasColumns = (site: Site): boolean => wholes.has(siteReaderOf(site));

/** `columnsOf` a run of rows at a time; each step says how many rows it read. */
export function* readingColumns(site: Site): Generator<number, SiteColumns> {
  const reader = siteReaderOf(site);
  const before = wholes.get(reader);
  if (before) return before;
  const made = yield* readColumns(site, reader);
  wholes.set(reader, made);
  return made;
}

const ofEvents = new WeakMap<object, SiteColumns>();

/** The results of one event: what `resultsIn` has, row by row. */
export function columnsIn(site: Site, event: string): SiteColumns {
  const readings = resultsIn(site, event);
  const made = ofEvents.get(readings) ?? columnsOfList(readings.used);
  ofEvents.set(readings, made);
  return made;
}

/** Results that are objects already. */
export function columnsOfList(results: readonly SiteReading[]): SiteColumns {
  const writer = siteWriter(results.length);
  results.forEach((result, row) => {
    const { sample, reading } = result;
    const subject = writer.subjectOf(reading);
    writer.put(row, writer.sampleOf(result), subject, writer.reportOf(reading, sample));
  });
  return writer.columns(results.length, (row) => {
    const result = results[row];
    if (!result) throw new RangeError(`no row ${row} of ${results.length}`);
    return result;
  });
}
