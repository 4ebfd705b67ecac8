import Papa from 'papaparse';
import { printWork } from '../../domain/print-work';
import {
  inPrintUnits,
  lengthNumber,
  unitOfDimension,
  unitsTogether,
  unitText,
  type PrintUnits,
} from '../../domain/show';
import { unitsOf } from '../../domain/site/settings';
import type { Site } from '../../domain/site/site';
import { sourceName } from '../../domain/site/source-name';
import { headsOf, leftOutWords } from '../../domain/water/event-heads';
import { flowOf, zonesOf, type Flow } from '../../domain/water/flow';
import type { Source, Work, WorkTable } from '../../domain/work';
import { harmless } from '../csv';

type Line = readonly string[];

/** A calculation's lines for a spreadsheet: the arithmetic, then where its numbers came from. */
const WORK_HEADER: Line = [
  'of',
  'step',
  'title',
  'what',
  'symbol',
  'name',
  'formula',
  'with its numbers',
  'value',
  'unit',
  'from',
];

/** A number as a spreadsheet takes it: with a plain minus. */
const plain = (text: string) => text.replaceAll('−', '-');

const csv = (lines: readonly Line[]) =>
  `${Papa.unparse(
    lines.map((cells) => cells.map(harmless)),
    { newline: '\n' },
  )}\n`;

/** Where a number came from: another line of the table, or what the page says. */
const sourceText = (site: Site, source: Source): string =>
  source.kind === 'work' ? `step: ${source.work.title}` : sourceName(site, source);

/**
 * A work and all that is behind it, the first line the answer, one line a
 * formula and one a number in it. A work that several numbers rest on stands
 * once.
 */
function workLines(site: Site, of: string, work: Work): Line[] {
  const units = unitsOf(site.settings);
  const lines: Line[] = [];
  const done = new Set<Work>();
  const waiting: Work[] = [work];
  for (let next = waiting.shift(); next; next = waiting.shift()) {
    if (done.has(next)) continue;
    done.add(next);
    const step = String(done.size);
    const printed = printWork(next, units);
    const head = [of, step, printed.title];
    lines.push([
      ...head,
      'answer',
      next.symbol,
      next.note ?? '',
      printed.formula,
      plain(printed.substituted),
      plain(printed.answer),
      printed.unit,
      '',
    ]);
    for (const term of printed.terms)
      lines.push([
        ...head,
        'number',
        term.symbol,
        term.name,
        '',
        term.conversion === null ? '' : plain(term.conversion),
        plain(term.number),
        term.unit,
        sourceText(site, term.from),
      ]);
    for (const row of tableRows(next.table, units))
      lines.push([...head, 'row of its table', '', row, '', '', '', '', '']);
    for (const { from } of next.terms) if (from.kind === 'work') waiting.push(from.work);
    waiting.push(...(next.table?.works ?? []).flat());
  }
  return lines;
}

/** The rows of a work's own table, such as the wells of a plane, each as "column value unit". */
function tableRows(table: WorkTable | undefined, siteUnits: PrintUnits): readonly string[] {
  if (!table) return [];
  const units = unitsTogether(
    table.columns.map(({ dimension }) => dimension),
    siteUnits,
  );
  return table.rows.map((cells) =>
    cells
      .map((value, at) => {
        const { name, dimension } = table.columns[at] ?? { name: '', dimension: 'text' };
        if (value === null) return `${name}: none`;
        if (typeof value === 'string' || dimension === 'text') return `${name}: ${value}`;
        const number = Number(inPrintUnits({ value, dimension }, units).toPrecision(9));
        return `${name}: ${number} ${unitOfDimension(dimension, units)}`.trimEnd();
      })
      .join('; '),
  );
}

/** Any works as one table of lines. */
const workCsv = (
  site: Site,
  works: readonly { readonly of: string; readonly work: Work }[],
): string => csv([WORK_HEADER, ...works.flatMap(({ of, work }) => workLines(site, of, work))]);

/** Files by name. */
export type TextFiles = ReadonlyMap<string, string>;

const fileName = (text: string) =>
  text
    .normalize('NFKD')
    .replace(/[^\w-]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60) || 'event';

/** The heads of an event, counted or not, and the work behind each. */
export function headTables(site: Site, event: string): TextFiles {
  const { vertical } = unitsOf(site.settings);
  const gauged = headsOf(site, event);
  const header: Line = [
    'screen',
    'location',
    'zone',
    'time',
    'measuring_point',
    `head (${unitText(vertical)})`,
    `standard_error (${unitText(vertical)})`,
    'counts',
    'why_not',
    'reason_given',
  ];
  const rows = gauged.map(
    ({ screen, location, reading, measuringPoint, head, sigma, leftOut, because }): Line => [
      screen.id,
      location.id,
      screen.zone ?? '',
      reading.time ?? '',
      measuringPoint?.id ?? '',
      head ? plain(lengthNumber(head.value, vertical)) : '',
      head ? plain(lengthNumber(sigma, vertical, 3)) : '',
      leftOut === null ? 'yes' : 'no',
      leftOut === null ? '' : leftOutWords(leftOut),
      because ?? '',
    ],
  );
  const works = gauged.flatMap(({ screen, head }) =>
    head ? [{ of: screen.id, work: head.work }] : [],
  );
  const name = fileName(event);
  return new Map([
    [`heads-${name}.csv`, csv([header, ...rows])],
    [`heads-${name}-work.csv`, workCsv(site, works)],
  ]);
}

const optional = (value: number | null, decimals: number) =>
  value === null ? '' : value.toFixed(decimals);

/** Flow of every zone of an event: the answer or why there is none, and its work. */
export function flowTables(site: Site, event: string): TextFiles {
  const heads = headsOf(site, event);
  const flows = zonesOf(heads).map((zone) => flowOf(site, event, zone, heads));
  const header: Line = [
    'event',
    'zone',
    'screens_used',
    'azimuth_grid (°)',
    'azimuth_true (°)',
    'azimuth_half_width (°)',
    'gradient',
    'resolved',
    'reason',
    'findings',
  ];
  const rows = flows.map((flow): Line => [
    flow.event,
    flow.zone ?? '',
    String(flow.fitted.length),
    optional(flow.azimuthGrid?.value ?? null, 1),
    optional(flow.azimuthTrue?.value ?? null, 1),
    optional(flow.azimuthHalfWidth, 1),
    flow.gradient ? String(Number(flow.gradient.value.toPrecision(4))) : '',
    flow.resolved ? 'yes' : 'no',
    flow.reason ?? '',
    flow.findings.join(' '),
  ]);
  const name = fileName(event);
  return new Map([
    [`flow-${name}.csv`, csv([header, ...rows])],
    [`flow-${name}-work.csv`, workCsv(site, flows.flatMap(worksOf))],
  ]);
}

function worksOf(flow: Flow): { readonly of: string; readonly work: Work }[] {
  const of = flow.zone ?? flow.event;
  return [flow.azimuthTrue, flow.azimuthGrid, flow.gradient].flatMap((worked) =>
    worked ? [{ of, work: worked.work }] : [],
  );
}
