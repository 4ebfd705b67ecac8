import type { Problem } from '../site/problem';
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

/** The field samples taken at a point or screen in an event, for who wrote its name in place of a sample's. */
export const samplesFrom = (site: Places, place: string, event: string): Sample[] =>
  [...site.samples.values()].filter(
    (sample) =>
      sample.kind === 'field sample' &&
      sample.event === event &&
      (sample.screen === place || locationOfSample(site, sample)?.id === place),
  );

/**
 * Cells that name a sample to repeat where there is no such sample. The rows are
 * used, for their results are what was measured: only what they repeat is not known.
 */
export const parentsNotFound = (site: Places & Pick<Site, 'files'>): Problem[] =>
  [...site.samples.values()].flatMap((sample): Problem[] => {
    const { parent, row, event } = sample;
    if (parent === null || site.samples.has(parent)) return [];
    const there = samplesFrom(site, parent, event).map(({ id }) => id);
    const such = there.length > 0 ? `, such as ${there.slice(0, 3).join(' or ')}` : '';
    return [
      {
        table: 'samples',
        file: site.files.samples,
        row,
        column: 'parent',
        expected: `the id of a sample${such}`,
        found: parent,
      },
    ];
  });
