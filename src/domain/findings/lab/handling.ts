import { groupBy } from '../../group';
import { heldFor, holdingLimitFor, holdingTimes, type HoldingTime } from '../../lab/holding-times';
import type { HoldingLimit } from '../../lab/holding-time-list';
import { holdingLimitsOf } from '../../lab/lab-settings';
import { cell } from '../../site/cite';
import type { ResultRow, Sample } from '../../site/schema';
import type { Site } from '../../site/site';
import type { Source } from '../../work';
import type { Finding, Rule } from '../finding';
import { isBefore } from '../moments';
import { counted, finding, lapse, listed } from '../words';
import { placesOf, resultsAt, samplesAt } from './event-results';

/** Coolers are received at 6 °C or less, not frozen. Common practice, no source. */
const WARMEST = 6;
const COLDEST = 0;

/** Coolers that came too warm, or frozen. */
export const receiptTemperature: Rule = ({ site, event }) => {
  const doubtful = samplesAt(site, event).filter(
    ({ receipt_temperature: t }) => t !== null && (t.value > WARMEST || t.value < COLDEST),
  );
  return [...groupBy(doubtful, ({ cooler }) => cooler ?? '')].map(([cooler, samples]): Finding => {
    const temperatures = samples.map(({ receipt_temperature: t }) => t?.value ?? 0);
    const worst = Math.max(...temperatures);
    const warm = worst > WARMEST;
    return finding('receipt temperature', cooler === '' ? 'samples' : cooler, event, {
      severity: 'caution',
      who: placesOf(site, samples),
      says: `${cooler === '' ? counted(samples.length, 'sample') : `Cooler ${cooler}, ${counted(samples.length, 'sample')},`} was received at ${(warm ? worst : Math.min(...temperatures)).toFixed(1).replace('-', '−')} °C; ${warm ? `${WARMEST} °C is the usual limit, and volatile compounds may have been lost` : 'bottles may have frozen and burst'}.`,
      todo: 'Ask the laboratory what it did; flag the results as possibly low.',
      cells: samples.map((sample) => cell('samples', sample, 'receipt_temperature')),
    });
  });
};

/**
 * Results analysed or extracted later than they may be, by the list in use; and
 * samples without those dates that were received too late for any to keep.
 */
export const holdingTime: Rule = ({ site, event }) => {
  if (event === null) return [];
  const bySample = groupBy(resultsAt(site, event), ({ sample }) => sample.id);
  return samplesAt(site, event).flatMap((sample): Finding[] => {
    if (sample.time === null) return [];
    const passed = new Map<string, Passed>();
    for (const { row } of bySample.get(sample.id) ?? []) {
      const limit = holdingLimitFor(holdingLimitsOf(site.settings), row.cas, row.method);
      const late = limit && latest(sample, row, limit);
      if (late && late.hours > (passed.get(limit.name)?.hours ?? 0)) passed.set(limit.name, late);
    }
    const all = [...passed.values()];
    return all.length === 0
      ? []
      : [
          finding('holding time', sample.id, event, {
            severity: 'caution',
            who: placesOf(site, [sample]),
            says: `${sample.id} was held too long: ${listed(all.map(({ says }) => says))}.`,
            todo: 'Flag the results as possibly low; limits differ by method and programme.',
            cells: [cell('samples', sample, 'time'), ...all.flatMap(({ cells }) => cells)],
          }),
        ];
  });
};

type Passed = {
  readonly hours: number;
  readonly says: string;
  readonly cells: readonly Source[];
};

/** The step that passed its limit; null where none is known to have. */
function latest(sample: Sample, row: ResultRow, limit: HoldingLimit): Passed | null {
  const { time, received_time: received } = sample;
  if (time === null) return null;
  const name = limit.name.toLowerCase();
  const [late] = holdingTimes(
    { sampled: time, extracted: row.prepared, analysed: row.analysed },
    limit,
  ).filter(({ kept }) => !kept);
  if (late)
    return {
      hours: late.hours,
      says: `${name} ${lapse(late.hours)} ${STEP_WORDS[late.step]}, ${lapse(late.allowedHours)} allowed (${limit.source})`,
      cells: [cell('results', row, late.step === 'to extraction' ? 'prepared' : 'analysed')],
    };
  const known = limit.toExtraction === null ? row.analysed : row.prepared;
  const held = known !== null || received === null ? null : heldFor(time, received);
  const allowed = limit.toExtraction ?? limit.toAnalysis;
  if (held === null || allowed === null || held.hours <= allowed) return null;
  return {
    hours: held.hours,
    says: `${name} may be held ${lapse(allowed)} (${limit.source}), and it reached the laboratory after ${lapse(held.hours)}`,
    cells: [cell('samples', sample, 'received_time')],
  };
}

const STEP_WORDS: Readonly<Record<HoldingTime['step'], string>> = {
  'to extraction': 'from sampling to extraction',
  'to analysis': 'from sampling to analysis',
  'from extraction to analysis': 'from extraction to analysis',
};

/** Times that cannot follow each other: taken before the screen was set or after it was pulled, received before it was taken. */
export const sampleTimes: Rule = ({ site, event }) => {
  const bySample =
    event === null ? null : groupBy(resultsAt(site, event), ({ sample }) => sample.id);
  return samplesAt(site, event).flatMap((sample): Finding[] => {
    const rows = (bySample?.get(sample.id) ?? []).map(({ row }) => row);
    const doubt = timeDoubt(site, sample) ?? analysisDoubt(sample, rows);
    return doubt === null
      ? []
      : [
          finding('times of a sample', sample.id, event, {
            severity: 'caution',
            who: placesOf(site, [sample]),
            says: doubt.says,
            todo: 'Compare with the custody record and the push log.',
            cells: [cell('samples', sample, 'time'), doubt.cell],
          }),
        ];
  });
};

type TimeDoubt = { readonly says: string; readonly cell: Source };

/** Analysed or extracted before it was taken, or analysed before it was extracted. */
function analysisDoubt({ id, time }: Sample, rows: readonly ResultRow[]): TimeDoubt | null {
  for (const row of rows) {
    const { prepared, analysed, analyte } = row;
    for (const [what, when] of [
      ['prepared', prepared],
      ['analysed', analysed],
    ] as const)
      if (time !== null && when !== null && isBefore(when, time))
        return { says: `${analyte} in ${id} is given as ${what} at ${when}, before it was taken at ${time}.`, cell: cell('results', row, what) }; // prettier-ignore
    if (prepared !== null && analysed !== null && isBefore(analysed, prepared))
      return { says: `${analyte} in ${id} is given as analysed at ${analysed}, before it was prepared at ${prepared}.`, cell: cell('results', row, 'analysed') }; // prettier-ignore
  }
  return null;
}

function timeDoubt(site: Site, sample: Sample): TimeDoubt | null {
  const { id, time, relinquished_time: handed, received_time: received } = sample;
  const screen = sample.screen === null ? undefined : site.screens.get(sample.screen);
  if (time !== null && screen?.set_time && isBefore(time, screen.set_time))
    return { says: `${id} was taken at ${time}, before ${screen.id} was opened at ${screen.set_time}.`, cell: cell('samples', sample, 'screen') }; // prettier-ignore
  if (time !== null && screen?.pulled_time && isBefore(screen.pulled_time, time))
    return { says: `${id} was taken at ${time}, after ${screen.id} was pulled at ${screen.pulled_time}.`, cell: cell('samples', sample, 'screen') }; // prettier-ignore
  if (time !== null && received !== null && isBefore(received, time))
    return { says: `${id} was received at ${received}, before it was taken at ${time}.`, cell: cell('samples', sample, 'received_time') }; // prettier-ignore
  if (handed !== null && received !== null && isBefore(received, handed))
    return { says: `${id} was received at ${received}, before it was handed over at ${handed}.`, cell: cell('samples', sample, 'received_time') }; // prettier-ignore
  return null;
}
