import { groupBy } from '../group';
import type { Site } from '../site/site';
import { amountOf, WORKED_IN, type ConcentrationDimension } from './concentration-units';
import { limitOf } from './limit';
import { valueOf } from './reading';
import { levelSetsOf, resultsOf, type SiteReading } from './site-results';
import type { Level } from './level';
import type { TimedResult } from './trend';

/** One result of a series: a value seen, a limit it was not seen above, or one with neither. */
export type SeriesPoint = TimedResult & {
  readonly result: SiteReading;
  /** "2025-09-15", the day it was taken, or the first of its event. */
  readonly day: string;
  /** At least this: over range or "> x". It counts as seen. */
  readonly atLeast: boolean;
};

/** Field samples of one screen and analyte over time, in one unit. */
export type Series = {
  readonly key: string;
  readonly analyte: string;
  readonly screen: string;
  /** "µg/L". */
  readonly unit: string;
  /** Times in years; ascending. */
  readonly points: readonly SeriesPoint[];
  /** Results that have no number to draw: rejected, blank, of another dimension. */
  readonly without: number;
  /** The level in the same unit; null where there is none that compares. */
  readonly level: { readonly level: Level; readonly amount: number } | null;
};

const YEAR = 365.25 * 86_400_000;

/** A day as a time in years; null where it is no date. */
export function yearsAt(day: string): number | null {
  const time = Date.parse(day.includes('T') ? `${day}Z` : `${day}T00:00Z`);
  return Number.isNaN(time) ? null : time / YEAR;
}

/** The day a time in years falls on. */
export const dayAt = (years: number): string => new Date(years * YEAR).toISOString().slice(0, 10);

const seen = ({ points }: Series) => points.filter(({ detected }) => detected).length;

/** Screens and analytes with results in two events and more, those with most detections first. */
export function seriesOf(site: Site, set: string | null): Series[] {
  const samples = resultsOf(site).used.filter(
    ({ sample, screen }) => screen !== null && sample.kind === 'field sample',
  );
  const groups = groupBy(
    samples,
    ({ screen, reading, row }) => `${screen?.id}|${reading.key}|${row.fraction ?? ''}`,
  );
  const levels = set === null ? undefined : levelSetsOf(site).get(set);
  return [...groups.values()]
    .filter((of) => new Set(of.map(({ sample }) => sample.event)).size > 1)
    .flatMap((of) => {
      const [first] = of;
      if (!first?.screen) return [];
      const dimension = of.find(({ reading }) => reading.unit)?.reading.unit?.dimension;
      if (!dimension) return [];
      const points = of
        .flatMap((result) => pointOf(site, result, dimension))
        .toSorted((a, b) => a.time - b.time);
      const level = levels?.levelFor(first.reading).level ?? null;
      const comparable = level?.value && level.value.unit.dimension === dimension ? level : null;
      return [
        {
          key: first.reading.key,
          analyte:
            first.row.fraction === 'dissolved'
              ? `${first.row.analyte}, dissolved`
              : first.row.analyte,
          screen: first.screen.id,
          unit: WORKED_IN[dimension],
          points,
          without: of.length - points.length,
          level: comparable && { level: comparable, amount: comparable.amount },
        },
      ];
    })
    .filter(({ points }) => points.length > 0)
    .toSorted(
      (a, b) =>
        seen(b) - seen(a) ||
        b.points.length - a.points.length ||
        a.screen.localeCompare(b.screen, 'en', { numeric: true }) ||
        a.analyte.localeCompare(b.analyte),
    );
}

function pointOf(
  site: Site,
  result: SiteReading,
  dimension: ConcentrationDimension,
): SeriesPoint[] {
  const { sample, reading } = result;
  if (reading.unit?.dimension !== dimension) return [];
  const taken = sample.time ?? site.events.get(sample.event)?.first_day;
  const time = taken ? yearsAt(taken) : null;
  const limit = limitOf(reading, 'reporting limit');
  const value = valueOf(reading);
  const amount = limit?.amount ?? (value && amountOf(value));
  if (!taken || time === null || amount === null || amount === undefined) return [];
  return [
    {
      time,
      day: taken.slice(0, 10),
      value: amount,
      detected: limit === null,
      atLeast: reading.state === 'more than',
      result,
    },
  ];
}
