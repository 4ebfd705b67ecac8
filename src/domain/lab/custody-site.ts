import type { DataPackage } from '../site/data-package';
import type { Edit } from '../site/edits/apply';
import type { Sample } from '../site/schema';
import type { Site } from '../site/site';
import { cellText, type Table } from '../site/table';
import { reconcile, type Reconciled, type Renamed, type Reported, type Sent } from './custody';

const kept = new WeakMap<
  object,
  { readonly against: readonly unknown[]; readonly found: Reconciled }
>();

/**
 * The custody lists of a site against its results. A sample with a custody number
 * is on a list; results of a round without lists are not asked for theirs.
 */
export function custodyOf(site: Site): Reconciled {
  const unknown = namesOfNoSample(site);
  const against = [site.samples, unknown.join('\n')];
  const before = kept.get(site.results);
  if (before?.against.every((part, i) => part === against[i])) return before.found;
  const sent = [...site.samples.values()].flatMap(sentOf);
  const listed = new Set(sent.map(({ event }) => event));
  const found = reconcile(sent, listed.size > 0 ? reportedIn(site, listed, unknown) : []);
  kept.set(site.results, { against, found });
  return found;
}

const dayOf = (sample: Sample) => sample.time?.slice(0, 10) ?? null;

const sentOf = (sample: Sample): Sent[] =>
  sample.custody_number === null
    ? []
    : [
        {
          id: sample.id,
          event: sample.event,
          custodyNumber: sample.custody_number,
          labNumber: sample.lab_number,
          blindName: sample.blind_alias,
          screen: sample.screen,
          day: dayOf(sample),
        },
      ];

/** Rows that name no sample of the site stand in the table and are not used: one name for each. */
const namesOfNoSample = ({ problems, samples }: Site): readonly string[] =>
  problems.flatMap(({ table, column, found }) =>
    table === 'results' && column === 'sample' && found !== '' && !samples.has(found)
      ? [found]
      : [],
  );

function reportedIn(
  site: Site,
  listed: ReadonlySet<string>,
  unknown: readonly string[],
): Reported[] {
  const names = new Map<string, { results: number; methods: Set<string> }>();
  const count = (name: string, method: string | null) => {
    const known = names.get(name) ?? { results: 0, methods: new Set<string>() };
    known.results++;
    if (method !== null) known.methods.add(method);
    names.set(name, known);
  };
  for (const { sample, method } of site.results) count(sample, method);
  for (const name of unknown) count(name, null);
  return [...names].flatMap(([name, { results, methods }]): Reported[] => {
    const sample = site.samples.get(name);
    if (sample && !listed.has(sample.event)) return [];
    return [
      {
        name,
        event: sample?.event ?? null,
        labNumber: sample?.lab_number ?? null,
        screen: sample?.screen ?? null,
        day: sample ? dayOf(sample) : null,
        results,
        methods: [...methods],
      },
    ];
  });
}

/**
 * The sample a laboratory's name is of: its own name, else the one name a blind
 * duplicate was sent under, else the laboratory's one number for it. Null where no
 * sample, or more than one, has it.
 */
export function sampleNamed(samples: ReadonlyMap<string, Sample>, name: string): string | null {
  if (samples.has(name)) return name;
  const all = [...samples.values()];
  for (const column of ['blind_alias', 'lab_number'] as const) {
    const [only, ...more] = all.filter((sample) => sample[column] === name);
    if (only && more.length === 0) return only.id;
  }
  return null;
}

/** What a laboratory file says of a sample and the list may lack. */
const FROM_THE_LABORATORY = [
  'received_time',
  'receipt_temperature',
  'laboratory',
  'lab_number',
  'delivery_group',
] as const;

/**
 * Give results to the sample of the list they are of: one step. The row of the
 * name they came under goes; what the list lacks is taken from it. Null where a
 * table is not there, or another sample is said to repeat that name.
 */
export function takeAs(site: DataPackage, { sent, reported }: Renamed): Edit | null {
  const { results, samples } = site.tables;
  if (!results || !samples) return null;
  const edits: Edit[] = [
    {
      kind: 'write-cells',
      table: 'results',
      cells: rowsNaming(results, 'sample', reported.name).map((row) => ({
        row,
        column: 'sample',
        text: sent.id,
      })),
    },
  ];
  const [own] = rowsNaming(samples, 'id', sent.id);
  const [strange] = rowsNaming(samples, 'id', reported.name);
  if (own === undefined) return null;
  if (strange !== undefined) {
    if (rowsNaming(samples, 'parent', reported.name).length > 0) return null;
    const cells = FROM_THE_LABORATORY.flatMap((column) => {
      const text = cellText(samples, strange, column);
      return text !== '' && cellText(samples, own, column) === ''
        ? [{ row: own, column, text }]
        : [];
    });
    if (cells.length > 0) edits.push({ kind: 'write-cells', table: 'samples', cells });
    edits.push({ kind: 'remove-rows', table: 'samples', rows: [strange] });
  }
  return { kind: 'together', edits };
}

function rowsNaming(table: Table, column: string, name: string): number[] {
  const at = table.columns.indexOf(column);
  const rows: number[] = [];
  let start = 0;
  for (const { size, columns } of table.blocks) {
    const { dictionary, codes } = columns[at] ?? { dictionary: [], codes: [] };
    const own = new Set(dictionary.flatMap((text, code) => (text.trim() === name ? [code] : [])));
    if (own.size > 0)
      for (let i = 0; i < size; i++) if (own.has(codes[i] ?? -1)) rows.push(start + i);
    start += size;
  }
  return rows;
}
