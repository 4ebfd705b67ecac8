import type { Location, Sample, Screen } from '../site/schema';
import type { Site } from '../site/site';

type Places = Pick<Site, 'samples' | 'screens' | 'locations'>;

/** The sample a duplicate repeats; null where none is named, or one the site does not have. */
export const parentOf = ({ samples }: Pick<Site, 'samples'>, { parent }: Sample): Sample | null =>
  parent === null ? null : (samples.get(parent) ?? null);

/** The screen a sample was taken from: its own, else that of the sample it repeats; null for blanks and blind duplicates. */
export function screenOfSample(site: Places, sample: Sample): Screen | null {
  const id = sample.screen ?? parentOf(site, sample)?.screen ?? null;
  return id === null ? null : (site.screens.get(id) ?? null);
}

/** The location a sample was taken at, as `screenOfSample` has it. */
export function locationOfSample(site: Places, sample: Sample): Location | null {
  const screen = screenOfSample(site, sample);
  return screen && (site.locations.get(screen.location) ?? null);
}
