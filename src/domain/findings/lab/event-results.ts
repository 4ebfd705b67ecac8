import { groupBy } from '../../group';
import type { Sample } from '../../site/schema';
import type { Site } from '../../site/site';
import { locationOfSample } from '../../lab/sample-place';
import { resultsIn, type SiteReading } from '../../lab/site-results';

/** Results of an event, runs that gave way to others left out. In the order of the table. */
export const resultsAt = (site: Site, event: string): readonly SiteReading[] =>
  resultsIn(site, event).used;

const byEvent = new WeakMap<Site['samples'], ReadonlyMap<string, readonly Sample[]>>();

/** Sample bottles of an event, in the order of the table. */
export function samplesAt({ samples }: Site, event: string | null): readonly Sample[] {
  if (event === null) return [];
  let known = byEvent.get(samples);
  if (!known) byEvent.set(samples, (known = groupBy(samples.values(), (sample) => sample.event)));
  return known.get(event) ?? [];
}

/** The locations of samples, each once. */
export const placesOf = (site: Site, samples: readonly Sample[]) => [
  ...new Set(samples.flatMap((sample) => locationOfSample(site, sample)?.id ?? [])),
];

/** "TCE 186 µg/L" as the laboratory wrote it. */
export const resultSaid = ({ row }: SiteReading) =>
  `${row.analyte} ${row.value ?? ''} ${row.unit}`.replace(/\s+/g, ' ');
