import type { CellValue } from '../site/read-cell';
import type { ResultRow, Sample } from '../site/schema';
import type { Site } from '../site/site';
import { codeSets, READ, rowsCoded, type CodedRows } from '../site/table-rows';
import type { Reading, ResultInput } from './reading';
import { chosenRuns } from './runs';
import { distinct, siteWriter, type Report, type SiteColumns, type Subject } from './column-writer';
import { placed, type SiteReader } from './site-results';

/** Columns of `results` that say what a row is of; the matrix of its sample is the other part. */
const SUBJECT = ['cas', 'analyte', 'fraction', 'unit'] as const;

/**
 * Those that say how its value was reported; the laboratory and the matrix of its
 * sample are the other parts.
 */
const MANNER = [
  'unit',
  'run',
  'detected',
  'lab_qualifier',
  'validation_qualifier',
  'detection_limit',
  'reporting_limit',
] as const;

/**
 * Every result of a site as columns, a run of rows at a time. Rows with the same
 * subject, value and manner of reporting are read once.
 */
export function* readColumns(site: Site, reader: SiteReader): Generator<number, SiteColumns> {
  const runs = rowsCoded(site.results);
  const room = site.results.length;
  const writer = siteWriter(room);
  const known = knownReports();
  const origins = distinct<Sample>(originOf);
  /** Where each row stands: its run, and its place there. */
  const runOf = new Uint32Array(room);
  const placeIn = new Uint32Array(room);
  const diluted = new Set<number>();
  let row = 0;
  for (const [which, run] of runs.entries()) {
    const sampleOf = run.column('sample');
    const samples = sampleOf.dictionary.map((id) =>
      typeof id === 'string' ? (site.samples.get(id) ?? null) : null,
    );
    const places = samples.map((sample) =>
      sample ? writer.sampleOf(placed(site, sample)) : undefined,
    );
    const origin = samples.map((sample) => (sample ? origins.place(sample) : 0));
    const originColumn = {
      dictionary: origins.all,
      codes: Uint32Array.from(sampleOf.codes, (code) => origin[code] ?? 0),
    };
    const setOf = (names: readonly (keyof ResultRow)[]) =>
      codeSets([...names.map(run.column), originColumn]);
    const subjectAt = setOf(SUBJECT);
    const mannerAt = setOf(MANNER);
    const value = run.column('value');
    const valueOf = known.values(value.dictionary);
    const inputAt = inputsOf(run);
    const subjects = new Map<number | string, Subject>();
    const manners = new Map<number | string, Map<number, Report>>();
    for (let i = 0; i < run.size; i++) {
      const code = sampleOf.codes[i] ?? 0;
      const sample = samples[code];
      const place = places[code];
      if (run.state[i] !== READ || !sample || place === undefined) continue;
      const itsSubject = subjectAt(i);
      const itsManner = mannerAt(i);
      const itsValue = valueOf[value.codes[i] ?? 0] ?? 0;
      let subject = subjects.get(itsSubject);
      let reports = manners.get(itsManner);
      if (reports === undefined)
        manners.set(itsManner, (reports = known.inManner(inputAt(i, sample), sample)));
      let report = reports.get(itsValue);
      if (subject === undefined || report === undefined) {
        const reading = reader.reported(inputAt(i, sample), sample);
        subjects.set(itsSubject, (subject ??= writer.subjectOf(reading)));
        reports.set(itsValue, (report ??= writer.reportOf(reading, sample)));
      }
      if (report.isDilution) diluted.add(place);
      writer.put(row, place, subject, report);
      runOf[row] = which;
      placeIn[row] = i;
      row++;
    }
    yield run.size;
  }
  const all = writer.columns(row, (at) => {
    const run = at < row ? runs[runOf[at] ?? 0] : undefined;
    const result = run ? reader.row(run.make(placeIn[at] ?? 0)) : null;
    if (!result) throw new RangeError(`no row ${at} of ${row}`);
    return result;
  });
  return withoutReplaced(all, diluted);
}

const originOf = ({ laboratory, matrix }: Sample) => JSON.stringify([laboratory, matrix]);

/** What was read, by manner and value: the same in one run of rows as in another. */
function knownReports() {
  const values = distinct<CellValue | null | undefined>((text) => text);
  const manners = new Map<string, Map<number, Report>>();
  return {
    values: (dictionary: readonly (CellValue | null | undefined)[]) =>
      Uint32Array.from(dictionary, values.place),
    inManner: (input: ResultInput, sample: Sample) => {
      const key = JSON.stringify([originOf(sample), ...MANNER.map((name) => input[name])]);
      const before = manners.get(key) ?? new Map<number, Report>();
      manners.set(key, before);
      return before;
    },
  };
}

/** What was reported in the rows of a run, without the rest of the row. */
function inputsOf({ column }: CodedRows<ResultRow>) {
  const cells = <Name extends keyof ResultRow>(name: Name) => {
    const { codes, dictionary } = column(name);
    return (i: number) => (dictionary[codes[i] ?? 0] ?? null) as ResultRow[Name];
  };
  const [cas, analyte, fraction, unit] = [
    cells('cas'),
    cells('analyte'),
    cells('fraction'),
    cells('unit'),
  ];
  const [method, run, value, detected] = [
    cells('method'),
    cells('run'),
    cells('value'),
    cells('detected'),
  ];
  const [byLaboratory, byValidator] = [cells('lab_qualifier'), cells('validation_qualifier')];
  const [detectionLimit, reportingLimit] = [cells('detection_limit'), cells('reporting_limit')];
  return (i: number, { id, matrix }: Sample): ResultInput => ({
    sample: id,
    cas: cas(i),
    analyte: analyte(i),
    fraction: fraction(i),
    method: method(i),
    run: run(i),
    value: value(i),
    unit: unit(i),
    detected: detected(i),
    lab_qualifier: byLaboratory(i),
    validation_qualifier: byValidator(i),
    detection_limit: detectionLimit(i),
    reporting_limit: reportingLimit(i),
    matrix,
  });
}

/** A run gives way to another of its own sample, where one of them was diluted. */
function withoutReplaced(all: SiteColumns, diluted: ReadonlySet<number>): SiteColumns {
  if (diluted.size === 0) return all;
  const rows: number[] = [];
  for (let row = 0; row < all.size; row++) if (diluted.has(all.sample[row] ?? 0)) rows.push(row);
  const readings = rows.map((row) => all.resultAt(row).reading);
  const gone = new Set(chosenRuns(readings).replaced.map((one) => one.reading));
  if (gone.size === 0) return all;
  const goneRows = new Set(rows.filter((_, i) => gone.has(readings[i] as Reading)));
  const stay = Uint32Array.from({ length: all.size }, (_, row) => row).filter(
    (row) => !goneRows.has(row),
  );
  const thinned = <Column extends Uint8Array | Uint16Array | Uint32Array>(column: Column) => {
    const kept = column.slice(0, stay.length) as Column;
    for (let i = 0; i < stay.length; i++) kept[i] = column[stay[i] ?? 0] ?? 0;
    return kept;
  };
  return {
    ...all,
    size: stay.length,
    kind: thinned(all.kind),
    state: thinned(all.state),
    flags: thinned(all.flags),
    number: thinned(all.number),
    byDetection: thinned(all.byDetection),
    sample: thinned(all.sample),
    analyte: thinned(all.analyte),
    letter: thinned(all.letter),
    resultAt: (row) => all.resultAt(stay[row] ?? all.size),
  };
}
