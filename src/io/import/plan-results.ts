import { analyteProblem, analyteWithCas } from '../../domain/lab/analytes';
import { casOf } from '../../domain/lab/cas';
import { sampleNamed } from '../../domain/lab/custody-site';
import { readReported } from '../../domain/lab/reported';
import type { Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { BLANKS } from './control-samples';
import { slotsOf, slotTitle } from './forms';
import type { Places } from './places';
import type { Part, Plan } from './plan';
import { eventColumn, timeColumn } from './plan-levels';
import { keptColumns, keyOf, missing, required, slotColumns, tableColumns } from './plan-common';
import { limitReader, readerFor, readWhenText, resultReader } from './readers';
import type { Rounds } from './rounds';
import { areToldByName, SampleNames, type Told } from './sample-names';

/** Slots that say something of a sample beyond its name. */
const SAMPLE_SLOTS = slotsOf('results').flatMap(({ id, table }) =>
  table === 'samples' && id !== 'samples.id' ? [id] : [],
);

/** Whether a file says something of its samples beyond their names. */
export const tellsOfSamples = (context: Context) =>
  SAMPLE_SLOTS.some((slot) => context.at(slot) !== null);

/** A laboratory file: results, and the samples they are of where it tells of them. */
export function planResults(context: Context, places: Places, rounds: Rounds | null): Plan {
  const names = rounds && areToldByName(context) ? namesOf(context, places) : null;
  const sample = names?.id ?? (rounds ? sampleColumn(context) : knownSample(context));
  const rows: Part = {
    table: 'results',
    key: keyOf('results'),
    columns: [
      { ...sample, column: 'sample' },
      ...analyteColumns(context),
      ...valueColumns(context),
      ...unitColumn(context),
      ...['results.detection_limit', 'results.reporting_limit'].flatMap((slot) =>
        limitColumn(context, slot),
      ),
      ...tableColumns(context, 'results', [
        'results.cas',
        'results.analyte',
        'results.value',
        'results.unit',
        'results.detected',
        'results.lab_qualifier',
        'results.detection_limit',
        'results.reporting_limit',
      ]),
      ...keptColumns(context, 'results'),
    ],
  };
  return { rows, once: rounds ? [samplesPart(context, sample, places, rounds, names)] : [] };
}

/** Columns of the samples that their names tell. */
type NamedColumns = { readonly id: Made; readonly others: readonly Made[] };

function namesOf(context: Context, places: Places): NamedColumns {
  const nameAt = context.at('samples.id') ?? 0;
  const kindAt = context.at('samples.kind');
  const names = new SampleNames(context, places, nameAt);
  const readKind =
    kindAt === null ? null : readerFor(context, context.slot('samples.kind'), kindAt);
  const from = [...names.from, ...(kindAt === null ? [] : [kindAt])];
  const matrixAt = context.at('samples.matrix');
  const [matrix] = matrixAt === null ? [] : slotColumns(context, context.slot('samples.matrix'));
  const column = (name: string, cell: (told: Told) => Cell): Made => ({
    column: name,
    from,
    make: (texts) => {
      const kind = readKind ? readKind(texts.at(-1) ?? '') : null;
      return cell(names.tell(readKind ? texts.slice(0, -1) : texts, kind));
    },
  });
  return {
    id: column('id', ({ id }) => id),
    others: [
      column('screen', ({ screen }) => screen),
      column('kind', ({ kind }) => kind),
      ...(context.at('samples.parent') === null ? [column('parent', ({ parent }) => parent)] : []),
      ...(context.at('samples.blind_alias') === null
        ? [column('blind_alias', ({ alias }) => alias)]
        : []),
      ...(context.at('samples.lab_number') === null
        ? []
        : [column('lab_number', ({ labNumber }) => labNumber)]),
      ...(matrix
        ? [
            {
              ...matrix,
              from: [...matrix.from, ...from],
              make: (texts: readonly string[]) => {
                const cell = matrix.make(texts.slice(0, 1));
                const told = column('kind', ({ kind }) => kind).make(texts.slice(1));
                // A laboratory gives a blank the matrix of the samples it travels with.
                return cell === 'groundwater' && typeof told === 'string' && BLANKS.has(told)
                  ? 'water'
                  : cell;
              },
            },
          ]
        : []),
    ],
  };
}

function samplesPart(
  context: Context,
  sample: Made,
  places: Places,
  rounds: Rounds,
  names: NamedColumns | null,
): Part {
  return {
    table: 'samples',
    key: keyOf('samples'),
    columns: [
      { ...sample, column: 'id' },
      ...(names?.others ?? [
        sampledScreen(context, places),
        ...slotColumns(context, context.slot('samples.kind'), 'field sample'),
      ]),
      eventColumn(context, rounds, 'samples.time'),
      ...timeColumn(context, 'samples.time'),
      ...tableColumns(context, 'samples', [
        'samples.id',
        'samples.screen',
        'samples.event',
        'samples.time',
        'samples.kind',
        ...(names?.others.map(({ column }) => `samples.${column}`) ?? []),
      ]),
    ],
  };
}

/** The name of a sample the site has: the file says nothing of it but that. */
function knownSample(context: Context): Made {
  const at = context.at('samples.id');
  const heading = context.heading(at, 'Sample');
  const { samples } = context.target.site;
  return {
    column: 'id',
    from: at === null ? [] : [at],
    make: ([name = '']) =>
      sampleNamed(samples, name) ?? { column: heading, expected: 'a sample the site has: the file gives no location or date', found: name }, // prettier-ignore
  };
}

/** The sample's name: its own, or its location and day where the file names none. */
function sampleColumn(context: Context): Made {
  const at = context.at('samples.id');
  if (at !== null)
    return required(
      { column: 'id', from: [at], make: ([text = '']) => text },
      context.heading(at, 'Sample'),
      'the name of the sample',
    );
  const [locationAt, timeAt] = [context.at('samples.screen'), context.at('samples.time')];
  if (locationAt === null || timeAt === null) {
    context.askConstant('samples.id', null, 'No column names the sample, nor both its location and its day.'); // prettier-ignore
    const constant = context.constant('samples.id');
    return {
      column: 'id',
      from: [],
      make: () => constant ?? missing(slotTitle(context.slot('samples.id')), 'the name of the sample'), // prettier-ignore
    };
  }
  context.say('No column names the samples: they are called by their location and day.');
  return {
    column: 'id',
    from: [locationAt, timeAt],
    make: ([location = '', date = '']): Cell => {
      if (location === '')
        return missing(
          context.heading(locationAt, 'Location'),
          'the location, to name the sample by',
        );
      const when = readWhenText(context, timeAt, date);
      return typeof when === 'string' ? `${location} ${when.slice(0, 10)}` : when;
    },
  };
}

/** The screen sampled; blank only for a blank. */
function sampledScreen(context: Context, places: Places): Made {
  const at = context.at('samples.screen');
  const kindAt = context.at('samples.kind');
  const heading = context.heading(at, 'Location');
  const [kind] = slotColumns(context, context.slot('samples.kind'), 'field sample');
  const from = [...(at === null ? [] : [at]), ...(kindAt === null ? [] : [kindAt])];
  return {
    column: 'screen',
    from,
    make: (texts): Cell => {
      const name = at === null ? '' : (texts[0] ?? '');
      const cell = kind?.make(kindAt === null ? [] : texts.slice(-1)) ?? '';
      const isBlank = typeof cell === 'string' && BLANKS.has(cell);
      if (name !== '') {
        if (!isBlank) return places.screen(name, heading);
        // A blank may be listed under a name that is no place: the trip, the laboratory.
        const { screens, locations } = context.target.site;
        return screens.has(name) || locations.has(name) ? places.screen(name, heading) : '';
      }
      return isBlank ? '' : missing(heading, 'a location or screen; only a blank has none');
    },
  };
}

/** CAS number and name, the number's check digit and its owner looked at. */
function analyteColumns(context: Context): Made[] {
  const [casAt, nameAt] = [context.at('results.cas'), context.at('results.analyte')];
  const headings = {
    cas: context.heading(casAt, 'CAS number'),
    analyte: context.heading(nameAt, 'Analyte'),
  };
  const analyte = (cas: string, name: string): Cell => {
    if (name === '') {
      const known = analyteWithCas(casOf(cas) ?? '');
      return known?.name ?? missing(headings.analyte, 'the name of the analyte');
    }
    return name;
  };
  if (casAt === null) {
    const [constant] = slotColumns(context, context.slot('results.analyte'));
    if (nameAt === null) return constant ? [constant] : [];
    return [{ column: 'analyte', from: [nameAt], make: ([name = '']) => analyte('', name) }];
  }
  const pair = nameAt === null ? [casAt] : [casAt, nameAt];
  return [
    {
      column: 'cas',
      from: pair,
      make: ([cas = '', name = '']): Cell => {
        // Files put a code of their own, a dash or n/a where there is no CAS number.
        if (/^(?:-+|n\/?a|none|null)$/i.test(cas)) return '';
        const problem = analyteProblem(cas, name);
        if (!problem) return casOf(cas) ?? cas;
        return {
          column: headings[problem.column],
          expected: problem.expected,
          found: problem.found,
        };
      },
    },
    {
      column: 'analyte',
      from: pair,
      make: ([cas = '', name = '']) => analyte(cas, name),
    },
  ];
}

const SIGN = /^[<>≤≥]=?$/;

/**
 * The result with the sign that stands beside it put to it, the laboratory's
 * letters, and whether it was seen, where the sign says so.
 */
function valueColumns(context: Context): Made[] {
  const at = context.at('results.value');
  const remarkAt = context.at('@remark');
  const letterAt = context.at('results.lab_qualifier');
  const detectedAt = context.at('results.detected');
  const read = resultReader(context, context.heading(at, 'Result'));
  const from = at === null ? [] : [at];
  const others = [
    ...(letterAt === null
      ? []
      : [
          {
            column: 'lab_qualifier',
            from: [letterAt],
            make: ([text = '']: readonly string[]) => text,
          },
        ]),
    ...(detectedAt === null ? [] : slotColumns(context, context.slot('results.detected'))),
  ];
  if (remarkAt === null)
    return [{ column: 'value', from, make: ([text = '']) => read(text) }, ...others];

  const isSigned = (text: string) => /^\s*[<>≤≥]/.test(text);
  const value = ([text = '', remark = '']: readonly string[]) =>
    read(SIGN.test(remark) && text !== '' && !isSigned(text) ? `${remark}${text}` : text);
  const both = [...from, remarkAt];
  const made: Made[] = [{ column: 'value', from: both, make: value }];
  if (letterAt === null)
    made.push({
      column: 'lab_qualifier',
      from: [remarkAt],
      make: ([remark = '']) => (SIGN.test(remark) ? '' : remark),
    });
  if (detectedAt === null && letterAt === null)
    made.push({
      column: 'detected',
      from: both,
      make: (texts): Cell => {
        const cell = value(texts);
        if (typeof cell !== 'string') return '';
        const { kind } = readReported(cell);
        if (kind === 'less than' || kind === 'not detected') return 'no';
        // A letter beside it may say that it was not: then the letter decides.
        const remark = texts.at(-1) ?? '';
        return kind === 'number' && (remark === '' || /^E$/i.test(remark)) ? 'yes' : '';
      },
    });
  return [...made, ...others];
}

/** The unit of a row: its column, else the one in the heading of the results. */
function unitColumn(context: Context): Made[] {
  const inHeading = context.unitOf(context.at('results.value'));
  if (context.at('results.unit') !== null || inHeading === null)
    return slotColumns(context, context.slot('results.unit'));
  return [{ column: 'unit', from: [], make: () => inHeading }];
}

function limitColumn(context: Context, slot: string): Made[] {
  const at = context.at(slot);
  if (at === null) return [];
  const unit = context.unitOf(at);
  const ofResults = context.unitOf(context.at('results.value'));
  if (unit !== null && ofResults !== null && unit.toLowerCase() !== ofResults.toLowerCase()) {
    context.say(`${context.heading(at, 'The limit')} is in another unit than the results, and is left out.`); // prettier-ignore
    return [];
  }
  const read = limitReader(context, context.heading(at, 'Limit'));
  return [{ column: slot.split('.')[1] ?? '', from: [at], make: ([text = '']) => read(text) }];
}
