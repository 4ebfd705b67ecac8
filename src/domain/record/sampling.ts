import { nameBy, readPattern } from '../layout/numbering';
import { sampleCounts, type QualityRates, type SampleCounts } from '../layout/sample-counts';
import type { Edit } from '../site/edits/apply';
import type { Sample, Screen } from '../site/schema';
import type { Site } from '../site/site';
import { roundEdits } from './rounds';
import { SAMPLE_WORDS } from './sample-names';
import { rowOf, type Typed } from './typed';

/** Endings by kind, so that a duplicate and a blank differ from their sample. */
const ENDINGS: Readonly<Record<Sample['kind'], string>> = {
  'field sample': '',
  'field duplicate': '-FD',
  'trip blank': '-TB',
  'equipment blank': '-EB',
  'field blank': '-FB',
};

/** Blanks are not of a screen. */
export const isBlank = (kind: string) => kind.endsWith('blank');

/**
 * The name of a sample by a pattern, one that no sample has: "-2" and on where
 * it is taken. A blank's name starts with its day. Null where the pattern can't be read.
 */
export function sampleName(
  site: Site,
  pattern: string,
  screen: Screen | null,
  kind: Sample['kind'],
  day: string,
): string | null {
  const read = readPattern(pattern, SAMPLE_WORDS);
  if (!read.ok) return null;
  const digits = day.replaceAll('-', '');
  const number = site.samples.size + 1;
  const stem =
    screen === null
      ? digits
      : nameBy(read.value, { location: screen.location, screen: screen.id, day: digits, number });
  if (stem === null || stem === '') return null;
  const name = `${stem}${ENDINGS[kind]}`;
  let free = name;
  for (let n = 2; site.samples.has(free); n++) free = `${name}-${n}`;
  return free;
}

/** The field sample a duplicate of a screen repeats in a round; null where none is taken yet. */
export const parentOf = (site: Site, screen: string, round: string): Sample | null =>
  [...site.samples.values()].findLast(
    (sample) =>
      sample.screen === screen && sample.event === round && sample.kind === 'field sample',
  ) ?? null;

/** A sample taken, in a round that takes in its day. */
export function sampleEdit(site: Site, round: string, typed: Typed): Edit {
  const row = rowOf({ ...typed, event: round });
  return {
    kind: 'together',
    edits: [
      ...roundEdits(site, round, (row.time ?? '').slice(0, 10)),
      { kind: 'add-rows', table: 'samples', rows: [row] },
    ],
  };
}

/** Samples of a round, in the order they were taken; those without a time last. */
export const samplesOf = (site: Site, round: string): readonly Sample[] =>
  [...site.samples.values()]
    .filter(({ event }) => event === round)
    .toSorted((a, b) => (a.time ?? '~').localeCompare(b.time ?? '~'));

export type Due = {
  readonly name: string;
  readonly taken: number;
  readonly due: number;
};

/** Duplicates and blanks taken, beside those due at the rates for the field samples so far. */
export function dueOf(samples: readonly Sample[], rates: QualityRates): readonly Due[] {
  const count = (kind: Sample['kind']) => samples.filter((sample) => sample.kind === kind).length;
  const distinct = (of: (sample: Sample) => string | null | undefined) =>
    new Set(samples.map(of).filter((text) => text !== null && text !== undefined)).size;
  const field = count('field sample');
  const counts: SampleCounts = sampleCounts(
    field,
    field === 0
      ? 0
      : Math.max(
          1,
          distinct(({ cooler }) => cooler),
        ),
    distinct(({ time }) => time?.slice(0, 10)),
    rates,
  );
  return [
    { name: 'Field duplicates', taken: count('field duplicate'), due: counts.fieldDuplicates },
    { name: 'Trip blanks', taken: count('trip blank'), due: counts.tripBlanks },
    { name: 'Equipment blanks', taken: count('equipment blank'), due: counts.equipmentBlanks },
  ];
}

export const CUSTODY_COLUMNS = [
  'Sample',
  'Date',
  'Time',
  'Kind',
  'Matrix',
  'Containers',
  'Preservative',
  'Cooler',
  'Custody no.',
  'Laboratory',
] as const;

/** The kind as the laboratory may see it: a duplicate sent under another name stays blind. */
const kindOnList = ({ kind, blind_alias }: Sample) =>
  kind === 'field duplicate' && blind_alias !== null ? 'field sample' : kind;

/** The draft custody list: one row a sample, in the columns above. Blind names stand for their samples. */
export const custodyRows = (samples: readonly Sample[]): readonly (readonly string[])[] =>
  samples.map((sample) => [
    sample.blind_alias ?? sample.id,
    sample.time?.slice(0, 10) ?? '',
    sample.time?.slice(11, 16) ?? '',
    kindOnList(sample),
    sample.matrix ?? '',
    sample.container ?? '',
    sample.preservative ?? '',
    sample.cooler ?? '',
    sample.custody_number ?? '',
    sample.laboratory ?? '',
  ]);
