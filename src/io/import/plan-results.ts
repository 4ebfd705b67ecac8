import { analyteProblem, analyteWithCas } from '../../domain/lab/analytes';
import { casOf } from '../../domain/lab/cas';
import { readReported } from '../../domain/lab/reported';
import type { Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import type { Places } from './places';
import type { Part, Plan } from './plan';
import { namedSamples, samplesPart } from './plan-samples';
import { keptColumns, keyOf, missing, slotColumns, tableColumns } from './plan-common';
import { limitReader, resultReader } from './readers';
import type { Rounds } from './rounds';

/** A laboratory file: results, and the samples they are of where it tells of them. */
export function planResults(context: Context, places: Places, rounds: Rounds | null): Plan {
  const samples = namedSamples(context, places, rounds !== null);
  const rows: Part = {
    table: 'results',
    key: keyOf('results'),
    columns: [
      { ...samples.id, column: 'sample' },
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
  return { rows, once: rounds ? [samplesPart(context, samples, places, rounds)] : [] };
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
