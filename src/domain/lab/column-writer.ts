import type { ResultRow, Sample, Screen } from '../site/schema';
import type { Reading } from './reading';
import { isDilution } from './runs';
import type { PlacedSample, SiteReading } from './site-results';
import { columnWriter, type ReportedFacts, type ResultColumns } from './verdict-columns';

/**
 * Results of a site as columns of numbers, in the order of the table, runs that
 * gave way left out. A million are a few typed arrays; one is an object only
 * when it is looked at.
 */
export type SiteColumns = ResultColumns & {
  /** One a row: the place of its sample in `samples`. */
  readonly sample: Uint32Array;
  readonly samples: readonly PlacedSample[];
  /** One a sample: the place of its screen in `screens`; `NO_SCREEN` for one of none. */
  readonly screen: Int32Array;
  readonly screens: readonly Screen[];
  /** One a row: the place of its analyte, by name as written, in `analytes`. */
  readonly analyte: Uint32Array;
  readonly analytes: readonly string[];
  /** One a row: the place of its letters in `letters`. */
  readonly letter: Uint32Array;
  readonly letters: readonly Letters[];
  readonly resultAt: (row: number) => SiteReading;
};

export const NO_SCREEN = -1;

/** Letters as written beside a result, and who wrote the first. */
export type Letters = Pick<ResultRow, 'lab_qualifier' | 'validation_qualifier'> &
  Pick<Sample, 'laboratory'>;

/** What of a result hangs from its analyte, fraction, unit and matrix; and from what was reported. */
export type Subject = { readonly kind: number; readonly analyte: number };
export type Report = ReportedFacts & { readonly letter: number; readonly isDilution: boolean };

/** Writes the columns of a site's results, a row at a time. */
export function siteWriter(room: number) {
  const writer = columnWriter(room);
  const sample = new Uint32Array(room);
  const analyte = new Uint32Array(room);
  const letter = new Uint32Array(room);
  const samples = distinct<PlacedSample, Sample>(({ sample: one }) => one);
  const analytes = distinct<string>((name) => name);
  const screens = distinct<Screen>((one) => one);
  const letters = distinct<Letters>(({ laboratory, lab_qualifier, validation_qualifier }) =>
    [laboratory, lab_qualifier, validation_qualifier].join('\n'),
  );
  return {
    sampleOf: samples.place,
    subjectOf: (one: Reading): Subject => ({
      kind: writer.kindOf(one),
      analyte: analytes.place(one.result.analyte),
    }),
    reportOf: (one: Reading, { laboratory }: Sample): Report => {
      const { lab_qualifier, validation_qualifier } = one.result;
      return {
        ...writer.factsOf(one),
        letter: letters.place({ lab_qualifier, validation_qualifier, laboratory }),
        isDilution: isDilution(one),
      };
    },
    put: (row: number, itsSample: number, subject: Subject, report: Report) => {
      writer.put(row, subject.kind, report);
      sample[row] = itsSample;
      analyte[row] = subject.analyte;
      letter[row] = report.letter;
    },
    columns: (size: number, resultAt: SiteColumns['resultAt']): SiteColumns => ({
      ...writer.columns(size),
      sample,
      samples: samples.all,
      screen: Int32Array.from(samples.all, ({ screen }) =>
        screen === null ? NO_SCREEN : screens.place(screen),
      ),
      screens: screens.all,
      analyte,
      analytes: analytes.all,
      letter,
      letters: letters.all,
      resultAt,
    }),
  };
}

/** Different things, each with its place. */
export function distinct<Thing, Key = unknown>(keyOf: (thing: Thing) => Key) {
  const all: Thing[] = [];
  const places = new Map<Key, number>();
  const place = (thing: Thing): number => {
    const key = keyOf(thing);
    const before = places.get(key);
    if (before !== undefined) return before;
    places.set(key, all.length);
    return all.push(thing) - 1;
  };
  return { all, place };
}
