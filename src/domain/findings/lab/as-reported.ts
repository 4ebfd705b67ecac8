import { groupBy } from '../../group';
import { analyteProblem } from '../../lab/analytes';
import { limitOf } from '../../lab/limit';
import { FLAG } from '../../lab/qualifiers';
import type { SiteReading } from '../../lab/site-results';
import { cell } from '../../site/cite';
import type { Finding, Rule } from '../finding';
import { counted, finding, listed } from '../words';
import { resultsAt } from './event-results';

/** The samples a group of results belongs to, each once. */
const samplesOf = (results: readonly SiteReading[]) => [
  ...new Set(results.map(({ sample }) => sample.id)),
];

const placesOf = (results: readonly SiteReading[]) => [
  ...new Set(results.flatMap(({ location }) => location?.id ?? [])),
];

/** Letters beside results that no legend explains. */
export const unknownLetters: Rule = ({ site, event }) => {
  if (event === null) return [];
  const odd = resultsAt(site, event).filter(({ reading }) => (reading.flags & FLAG.unknown) !== 0);
  const byLetter = groupBy(
    odd.flatMap((result) =>
      result.reading.unknownLetters.map((letter) => ({
        letter,
        laboratory: result.sample.laboratory ?? 'the laboratory',
        result,
      })),
    ),
    ({ letter, laboratory }) => JSON.stringify([letter, laboratory]),
  );
  return [...byLetter.values()].flatMap((found): Finding[] => {
    const [first] = found;
    if (!first) return [];
    const results = found.map(({ result }) => result);
    return [
      finding('letter without a meaning', `${first.letter} of ${first.laboratory}`, event, {
        severity: 'caution',
        who: placesOf(results),
        says: `The letter ${first.letter} of ${first.laboratory} stands beside ${counted(results.length, 'result')} and no legend explains it (${listed(samplesOf(results), 4)}).`,
        todo: 'Look it up in the laboratory’s own legend and add it; the same letter means different things.',
        cells: results.map(({ row }) => cell('results', row, 'lab_qualifier')),
      }),
    ];
  });
};

/** CAS numbers whose check digit fails, or that belong to another name. */
export const analyteNames: Rule = ({ site, event }) => {
  if (event === null) return [];
  const named = groupBy(resultsAt(site, event), ({ row }) =>
    JSON.stringify([row.cas, row.analyte]),
  );
  return [...named.values()].flatMap((results): Finding[] => {
    const [first] = results;
    const problem = first ? analyteProblem(first.row.cas, first.row.analyte) : null;
    if (!first || !problem) return [];
    return [
      finding('CAS number in doubt', `${problem.found}, ${first.row.analyte}`, event, {
        severity: 'caution',
        who: placesOf(results),
        says: `${first.row.analyte} has the CAS number ${problem.found} in ${counted(results.length, 'result')}: expected ${problem.expected}.`,
        todo: 'Correct the number or the name; results are matched with levels by it.',
        cells: results.map(({ row }) => cell('results', row, problem.column)),
      }),
    ];
  });
};

/** Non-detects without a limit: not zero, and nothing can be told from them. */
export const noLimit: Rule = ({ site, event }) => {
  if (event === null) return [];
  const without = resultsAt(site, event).filter(
    ({ reading }) =>
      reading.state === 'not detected' &&
      reading.unit !== null &&
      limitOf(reading, 'reporting limit') === null &&
      limitOf(reading, 'detection limit') === null,
  );
  return without.length === 0
    ? []
    : [
        finding('non-detect without a limit', 'results', event, {
          severity: 'caution',
          who: placesOf(without),
          says: `${counted(without.length, 'non-detect')} ${without.length === 1 ? 'has' : 'have'} no limit (${listed(samplesOf(without), 4)}): not detected above what is not said.`,
          todo: 'Ask the laboratory for its limits; a non-detect is never zero.',
          cells: without.map(({ row }) => cell('results', row, 'reporting_limit')),
        }),
      ];
};

/** Results that cannot be read, that the validator rejected, or that are missing. */
export const withoutResult: Rule = ({ site, event }) => {
  if (event === null) return [];
  const results = resultsAt(site, event);
  const inState = (state: SiteReading['reading']['state']) =>
    results.filter(({ reading }) => reading.state === state);
  const make = (
    rule: string,
    severity: Finding['severity'],
    which: readonly SiteReading[],
    words: string,
    todo: string,
  ): Finding[] =>
    which.length === 0
      ? []
      : [
          finding(rule, 'results', event, {
            severity,
            who: placesOf(which),
            says: `${counted(which.length, 'result')} ${words} (${listed(
              which.map(({ row }) => `${row.sample} ${row.analyte}`),
              4,
            )}).`,
            todo,
            cells: which.map(({ row }) => cell('results', row, 'value')),
          }),
        ];
  return [
    ...make(
      'result not readable',
      'caution',
      inState('unreadable'),
      'cannot be read as the letters and columns beside it stand',
      'Compare with the laboratory’s report.',
    ),
    ...make(
      'rejected results',
      'note',
      inState('rejected'),
      'rejected in validation: a gap, not a non-detect',
      'Show the gap; sample again if a decision hangs on it.',
    ),
    ...make(
      'no result',
      'note',
      inState('none'),
      'without a value',
      'Ask the laboratory for it, or say why there is none.',
    ),
  ];
};
