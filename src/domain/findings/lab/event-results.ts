import { groupBy } from '../../group';
import type { Sample } from '../../site/schema';
import type { Site } from '../../site/site';
import { resultsOf, type SiteReading, type SiteReadings } from '../../lab/site-results';

const kept = new WeakMap<SiteReadings, ReadonlyMap<string, readonly SiteReading[]>>();

/** Results of an event, runs that gave way to others left out. In the order of the table. */
export function resultsAt(site: Site, event: string): readonly SiteReading[] {
  const readings = resultsOf(site);
  const before = kept.get(readings);
  const byEvent = before ?? groupBy(readings.used, ({ sample }) => sample.event);
  if (!before) kept.set(readings, byEvent);
  return byEvent.get(event) ?? [];
}

/** Sample bottles of an event, in the order of the table. */
export const samplesAt = (site: Site, event: string | null): readonly Sample[] =>
  [...site.samples.values()].filter((sample) => sample.event === event);

/** The location of a sample; null for blanks. */
export const placeOf = (site: Site, { screen }: Sample): string | null =>
  screen === null ? null : (site.screens.get(screen)?.location ?? null);

/** The locations of samples, each once. */
export const placesOf = (site: Site, samples: readonly Sample[]) => [
  ...new Set(samples.flatMap((sample) => placeOf(site, sample) ?? [])),
];

/** "TCE 186 µg/L" as the laboratory wrote it. */
export const resultSaid = ({ row }: SiteReading) =>
  `${row.analyte} ${row.value ?? ''} ${row.unit}`.replace(/\s+/g, ' ');
