/**
 * How many quality-control samples go with the field samples. Rates differ
 * between programmes and are the user's to set; those here were read in public
 * monitoring reports (2025 and before).
 */
export type QualityRates = {
  readonly name: string;
  /** One field duplicate for so many field samples; null for none. */
  readonly fieldDuplicate: number | null;
  /** One matrix spike and its duplicate for so many. */
  readonly matrixSpike: number | null;
  /** One a cooler that carries volatiles. */
  readonly tripBlank: boolean;
  /** One a day where tools are used again. */
  readonly equipmentBlank: boolean;
  readonly source: string;
};

export const QUALITY_RATES: readonly QualityRates[] = [
  {
    name: 'One in ten',
    fieldDuplicate: 10,
    matrixSpike: 20,
    tripBlank: true,
    equipmentBlank: true,
    source:
      'Public monitoring reports: duplicate 1 in 10, trip blank a cooler with volatiles, spike 1 in 20 of a matrix, equipment blank a day',
  },
  {
    name: 'One in twenty',
    fieldDuplicate: 20,
    matrixSpike: 20,
    tripBlank: true,
    equipmentBlank: true,
    source:
      'Public monitoring reports: duplicate 5 %, equipment blank a day only with tools used again',
  },
];

export type SampleCounts = {
  readonly fieldSamples: number;
  readonly fieldDuplicates: number;
  readonly matrixSpikes: number;
  readonly tripBlanks: number;
  readonly equipmentBlanks: number;
  readonly total: number;
};

/** One for each `rate` begun: 1 for one to ten, 2 for eleven. None without samples or a rate. */
export const oneInEach = (samples: number, rate: number | null): number =>
  rate !== null && rate > 0 && samples > 0 ? Math.ceil(samples / rate) : 0;

/** Analytes lost to air, for which a trip blank travels; by the usual names of their groups. */
const isVolatile = (analytes: string) =>
  /\bvocs?\b|\bvolatiles?\b|\bbtex\b|\bvph\b|\bgro\b|\b8260|\b624/i.test(analytes) &&
  !/\bsvocs?\b|semi/i.test(analytes);

/** Containers of one group of analytes: so many for each set of bottles filled. */
export type ContainerTotal = {
  readonly analytes: string;
  readonly container: string;
  readonly count: number;
  /** Sets of bottles, by what they are filled for; what has none is left out. */
  readonly sets: readonly (readonly [what: string, sets: number])[];
  readonly total: number;
};

/**
 * Containers for a round, blanks and spikes with it. A matrix spike and its
 * duplicate are two sets more of their sample; trip blanks are of volatiles only.
 */
export const containerTotals = <
  Line extends { readonly analytes: string; readonly container: string; readonly count: number },
>(
  lines: readonly Line[],
  counts: SampleCounts,
): ContainerTotal[] =>
  lines.map(({ analytes, container, count }) => {
    const sets = (
      [
        ['field samples', counts.fieldSamples],
        ['field duplicates', counts.fieldDuplicates],
        ['MS and MSD', 2 * counts.matrixSpikes],
        ['equipment blanks', counts.equipmentBlanks],
        ['trip blanks', isVolatile(analytes) ? counts.tripBlanks : 0],
      ] as const
    ).filter(([, n]) => n > 0);
    const total = count * sets.reduce((sum, [, n]) => sum + n, 0);
    return { analytes, container, count, sets, total };
  });

/** "VOCs, 3 × 40 mL vial: 45 in all, 3 each for 10 field samples, 1 field duplicates …". */
export const containerWords = ({ analytes, container, count, sets, total }: ContainerTotal) =>
  `${analytes === '' ? '' : `${analytes}, `}${container}: ${total} in all, ${count} for each of ${sets
    .map(([what, n]) => `${what} ${n}`)
    .join(' + ')}`;

/**
 * Samples of every kind for a round. A matrix spike is two more bottle sets, the
 * spike and its duplicate, and counts as one here.
 *
 * @param coolers  that carry volatiles
 * @param days     on which tools are cleaned and used again
 */
export function sampleCounts(
  fieldSamples: number,
  coolers: number,
  days: number,
  rates: QualityRates,
): SampleCounts {
  const fieldDuplicates = oneInEach(fieldSamples, rates.fieldDuplicate);
  const matrixSpikes = oneInEach(fieldSamples, rates.matrixSpike);
  const tripBlanks = rates.tripBlank ? coolers : 0;
  const equipmentBlanks = rates.equipmentBlank ? days : 0;
  return {
    fieldSamples,
    fieldDuplicates,
    matrixSpikes,
    tripBlanks,
    equipmentBlanks,
    total: fieldSamples + fieldDuplicates + matrixSpikes + tripBlanks + equipmentBlanks,
  };
}
