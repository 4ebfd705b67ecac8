import { groupBy } from '../../group';
import { heldFor, holdingLimitFor } from '../../lab/holding-times';
import { USUAL_HOLDING_LIMITS, type HoldingLimit } from '../../lab/holding-time-list';
import { cell } from '../../site/cite';
import type { Sample } from '../../site/schema';
import type { Site } from '../../site/site';
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

/** Samples received later than they may be held: no day of analysis could have kept the time. */
export const holdingTime: Rule = ({ site, event }) => {
  if (event === null) return [];
  const bySample = groupBy(resultsAt(site, event), ({ sample }) => sample.id);
  return samplesAt(site, event).flatMap((sample): Finding[] => {
    const { time, received_time: received } = sample;
    const held = time === null || received === null ? null : heldFor(time, received);
    if (held === null) return [];
    const limits = new Map<string, HoldingLimit>();
    for (const { row } of bySample.get(sample.id) ?? []) {
      const limit = holdingLimitFor(USUAL_HOLDING_LIMITS, row.cas, row.method);
      if (limit) limits.set(limit.name, limit);
    }
    const passed = [...limits.values()].filter((limit) => held.hours > allowed(limit));
    return passed.length === 0
      ? []
      : [
          finding('holding time', sample.id, event, {
            severity: 'caution',
            who: placesOf(site, [sample]),
            says: `${sample.id} reached the laboratory ${lapse(held.hours)} after it was taken; ${listed(passed.map((limit) => `${limit.name.toLowerCase()} may be held ${lapse(allowed(limit))}`))}.`,
            todo: 'Flag the results; limits differ by method and programme.',
            cells: [cell('samples', sample, 'time'), cell('samples', sample, 'received_time')],
          }),
        ];
  });
};

const allowed = ({ toExtraction, toAnalysis }: HoldingLimit) =>
  toExtraction ?? toAnalysis ?? Infinity;

/** Times that cannot follow each other: taken before the screen was set or after it was pulled, received before it was taken. */
export const sampleTimes: Rule = ({ site, event }) =>
  samplesAt(site, event).flatMap((sample): Finding[] => {
    const doubt = timeDoubt(site, sample);
    return doubt === null
      ? []
      : [
          finding('times of a sample', sample.id, event, {
            severity: 'caution',
            who: placesOf(site, [sample]),
            says: doubt.says,
            todo: 'Compare with the custody record and the push log.',
            cells: [cell('samples', sample, 'time'), cell('samples', sample, doubt.column)],
          }),
        ];
  });

function timeDoubt(site: Site, sample: Sample): { says: string; column: string } | null {
  const { id, time, relinquished_time: handed, received_time: received } = sample;
  const screen = sample.screen === null ? undefined : site.screens.get(sample.screen);
  if (time !== null && screen?.set_time && isBefore(time, screen.set_time))
    return { says: `${id} was taken at ${time}, before ${screen.id} was opened at ${screen.set_time}.`, column: 'screen' }; // prettier-ignore
  if (time !== null && screen?.pulled_time && isBefore(screen.pulled_time, time))
    return { says: `${id} was taken at ${time}, after ${screen.id} was pulled at ${screen.pulled_time}.`, column: 'screen' }; // prettier-ignore
  if (time !== null && received !== null && isBefore(received, time))
    return { says: `${id} was received at ${received}, before it was taken at ${time}.`, column: 'received_time' }; // prettier-ignore
  if (handed !== null && received !== null && isBefore(received, handed))
    return { says: `${id} was received at ${received}, before it was handed over at ${handed}.`, column: 'received_time' }; // prettier-ignore
  return null;
}
