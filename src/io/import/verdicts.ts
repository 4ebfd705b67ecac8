import { legendsFrom } from '../../domain/lab/qualifiers';
import { DECIMAL_POINT } from '../../domain/lab/reported';
import { resultReader, type ResultInput } from '../../domain/lab/reading';
import type { LevelSet } from '../../domain/lab/screening';
import { levelSetsOf } from '../../domain/lab/site-results';
import { VERDICTS, type Verdict } from '../../domain/lab/verdict';
import type { Together } from '../../domain/site/edits/together';
import type { TableName } from '../../domain/site/schema';
import { tableOf, type Block, type Column, type Table } from '../../domain/site/table';
import { codeSets } from './cells';
import type { Target } from './context';

/** How many of the results a file would add get each verdict, by set of levels. */
export type VerdictCount = {
  readonly set: string;
  readonly counts: Readonly<Record<Verdict, number>>;
};

/** Columns of a result that a verdict depends on, besides its sample's laboratory and matrix. */
const COLUMNS = [
  'cas',
  'analyte',
  'fraction',
  'method',
  'run',
  'value',
  'unit',
  'detected',
  'lab_qualifier',
  'validation_qualifier',
  'detection_limit',
  'reporting_limit',
] as const;

const EMPTY = tableOf([], []);

/** What an edit adds to a table. */
function addedTo(edit: Together, name: TableName): readonly Table[] {
  return edit.edits.flatMap((each) => {
    if (each.kind === 'add-table' && each.table === name) return [each.added];
    if (each.kind !== 'add-rows' || each.table !== name) return [];
    const columns = Object.keys(each.rows[0] ?? {});
    return [
      tableOf(
        columns,
        each.rows.map((row) => columns.map((column) => row[column] ?? '')),
      ),
    ];
  });
}

type Sampled = { readonly laboratory: string | null; readonly matrix: string | null };

/** Laboratory and matrix of the samples an edit adds and of those the site has. */
function samplesOf(edit: Together, { site }: Target): (id: string) => Sampled {
  const added = new Map<string, Sampled>();
  for (const table of addedTo(edit, 'samples')) {
    const places = ['id', 'laboratory', 'matrix'].map((column) => table.columns.indexOf(column));
    if ((places[1] ?? -1) < 0 && (places[2] ?? -1) < 0) continue;
    for (const { size, columns } of table.blocks)
      for (let i = 0; i < size; i++) {
        const [id, laboratory, matrix] = places.map((at) => textAt(columns[at], i));
        added.set(id ?? '', { laboratory: laboratory || null, matrix: matrix || null });
      }
  }
  const unknown: Sampled = { laboratory: null, matrix: null };
  return (id) => added.get(id) ?? site.samples.get(id) ?? unknown;
}

const textAt = (column: Column | undefined, i: number) =>
  column?.dictionary[column.codes[i] ?? 0] ?? '';

/**
 * The verdicts on the results an import would add, counted by set of levels:
 * what the file has to say, before it is taken. Each different result of a block
 * is judged once.
 */
export function verdictCounts(edit: Together | null, target: Target): readonly VerdictCount[] {
  const tables = edit ? addedTo(edit, 'results') : [EMPTY];
  const sets = [...levelSetsOf(target.site).values()];
  if (!edit || sets.length === 0) return [];
  const judge = judgeOf(samplesOf(edit, target), target, sets);
  const totals = sets.map(() => new Float64Array(VERDICTS.length));
  for (const table of tables) for (const block of table.blocks) judge(table, block, totals);
  return sets.map(({ name }, s) => ({
    set: name,
    counts: Object.fromEntries(
      VERDICTS.map((verdict, v) => [verdict, totals[s]?.[v] ?? 0]),
    ) as Record<Verdict, number>,
  }));
}

function judgeOf(
  sampleOf: (id: string) => Sampled,
  { site }: Target,
  sets: readonly LevelSet[],
): (table: Table, block: Block, totals: readonly Float64Array[]) => void {
  const legends = legendsFrom(site.qualifierLegends);
  const readers = new Map<string | null, ReturnType<typeof resultReader>>();
  const readerOf = (laboratory: string | null) => {
    const before = readers.get(laboratory);
    if (before) return before;
    const reader = resultReader({ dress: DECIMAL_POINT, ...legends(laboratory) });
    readers.set(laboratory, reader);
    return reader;
  };
  const placeOf = new Map(VERDICTS.map((verdict, place) => [verdict, place]));

  return (table, block, totals) => {
    const columns = COLUMNS.map((name) => block.columns[table.columns.indexOf(name)]);
    const samples = block.columns[table.columns.indexOf('sample')];
    // Samples of one laboratory and matrix are judged alike.
    const kinds: Sampled[] = [];
    const kindOf = Uint16Array.from(samples?.dictionary ?? [], (id) => {
      const { laboratory, matrix } = sampleOf(id);
      const known = kinds.findIndex((k) => k.laboratory === laboratory && k.matrix === matrix);
      return known >= 0 ? known : kinds.push({ laboratory, matrix }) - 1;
    });
    const kindColumn: Column = {
      dictionary: kinds.map((_, place) => String(place)),
      codes: samples ? samples.codes.map((code) => kindOf[code] ?? 0) : new Uint16Array(block.size),
    };
    const given = [...columns, kindColumn].filter((column) => column !== undefined);
    const { at: setAt } = codeSets(given);
    const seen = new Map<number | string, readonly number[]>();
    for (let i = 0; i < block.size; i++) {
      const set = setAt(i);
      let places = seen.get(set);
      if (!places) {
        const kind = kinds[kindColumn.codes[i] ?? 0] ?? { laboratory: null, matrix: null };
        const reading = readerOf(kind.laboratory)(inputOf(columns, i, kind.matrix));
        places = sets.map((each) => placeOf.get(each.outcomeFor(reading).verdict) ?? 0);
        seen.set(set, places);
      }
      for (let s = 0; s < places.length; s++) {
        const total = totals[s];
        const place = places[s] ?? 0;
        if (total) total[place] = (total[place] ?? 0) + 1;
      }
    }
  };
}

function inputOf(
  columns: readonly (Column | undefined)[],
  i: number,
  matrix: string | null,
): ResultInput {
  const text = (place: number) => textAt(columns[place], i) || null;
  const detected = text(7);
  return {
    sample: '',
    cas: text(0),
    analyte: text(1) ?? '',
    fraction: text(2) as ResultInput['fraction'],
    method: text(3),
    run: text(4) as ResultInput['run'],
    value: text(5),
    unit: text(6),
    detected: detected === null ? null : detected === 'yes',
    lab_qualifier: text(8),
    validation_qualifier: text(9),
    detection_limit: text(10),
    reporting_limit: text(11),
    matrix,
  };
}
