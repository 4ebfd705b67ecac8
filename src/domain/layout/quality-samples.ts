import { nameBy, readPattern } from './numbering';
import type { PushRow } from './push-sheet';

/** A quality-control sample with its identifier, and the field sample it belongs to. */
export type QualitySample = {
  readonly kind: 'field duplicate' | 'matrix spike' | 'trip blank' | 'equipment blank';
  readonly id: string;
  readonly of: string | null;
};

/** Words of the patterns of duplicates and blanks. */
const QUALITY_WORDS = ['number', 'day'] as const;

/** How many, and what they are called. */
export type QualityPlan = {
  readonly duplicates: string;
  readonly tripBlanks: string;
  readonly equipmentBlanks: string;
  readonly coolers: number;
  readonly days: number;
  /** 2026-05-31 */
  readonly day: string;
};

/**
 * Duplicates, spikes and blanks of a push sheet, each with its identifier. A
 * duplicate is named blind, by its own pattern; a spike is more bottles of its
 * sample and keeps that name with MS and MSD behind it. A pattern that cannot
 * be read names nothing.
 */
export function qualitySamples(rows: readonly PushRow[], plan: QualityPlan): QualitySample[] {
  const day = plan.day.replaceAll('-', '');
  const named = (pattern: string, number: number) => {
    const read = readPattern(pattern, QUALITY_WORDS);
    return read.ok ? nameBy(read.value, { number, day }) : null;
  };
  const several = (kind: QualitySample['kind'], pattern: string, count: number) =>
    Array.from({ length: Math.max(0, Math.floor(count)) }, (_, i): QualitySample[] => {
      const id = named(pattern, i + 1);
      return id === null ? [] : [{ kind, id, of: null }];
    }).flat();

  const of = (which: 'duplicate' | 'spike') =>
    rows.flatMap((row) => (row.sample !== null && row[which] ? [row.sample] : []));
  const duplicates = of('duplicate').flatMap((sample, i): QualitySample[] => {
    const id = named(plan.duplicates, i + 1);
    return id === null ? [] : [{ kind: 'field duplicate', id, of: sample }];
  });
  const spikes = of('spike').map((sample): QualitySample => ({
    kind: 'matrix spike',
    id: `${sample} MS/MSD`,
    of: sample,
  }));
  return [
    ...duplicates,
    ...spikes,
    ...several('trip blank', plan.tripBlanks, plan.coolers),
    ...several('equipment blank', plan.equipmentBlanks, plan.days),
  ];
}
