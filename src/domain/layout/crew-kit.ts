import type { LengthUnit } from '../units';

/**
 * What a crew brings and how it samples, kept with the site. Lengths as typed,
 * in the site's vertical unit; bores in inches, or mm where that unit is m.
 */
export type CrewKit = {
  readonly rodLength: number;
  /** Sampler below the lowest rod. */
  readonly toolLength: number;
  /** The drive head stands at least this far above ground. */
  readonly leastAbove: number;
  readonly tubingAbove: number;
  readonly tubing: number;
  readonly screen: number;
  readonly hole: number;
  /** Percent sealed in beyond the hole's own volume. */
  readonly sealingExtra: number;
  readonly purgeTimes: number;
  /** Name pattern of samples, with [location], [top], [base] and [day]. */
  readonly samples: string;
  /** One line for each group of analytes: "VOCs: 3 × 40 mL vial, HCl". */
  readonly containers: string;
  /** Name patterns with [number] and [day]; a duplicate's does not say where it was taken. */
  readonly duplicates: string;
  readonly tripBlanks: string;
  readonly equipmentBlanks: string;
  /** 0: none. */
  readonly duplicateEach: number;
  readonly spikeEach: number;
  readonly coolers: number;
  readonly days: number;
  readonly tool: string;
  /** In which order several intervals of a point are sampled. */
  readonly way: string;
  readonly decontamination: string;
};

export const TOOLS = ['sealed until opened', 'exposed while driven'] as const;
export const WAYS = ['top down', 'bottom up'] as const;

/** What is usual; all of it common practice, no source, and the user's to set. */
export function usualKit(unit: LengthUnit): CrewKit {
  const metric = unit === 'm';
  return {
    rodLength: metric ? 1.2 : 4,
    toolLength: metric ? 1.2 : 4,
    leastAbove: metric ? 0.3 : 1,
    tubingAbove: metric ? 1.5 : 5,
    tubing: metric ? 6 : 0.25,
    screen: metric ? 12 : 0.5,
    hole: metric ? 38 : 1.5,
    sealingExtra: 20,
    purgeTimes: 3,
    samples: '[location]-[top]-[day]',
    containers: 'VOCs: 3 × 40 mL vial, HCl',
    duplicates: 'DUP-[number 01]-[day]',
    tripBlanks: 'TB-[number 01]-[day]',
    equipmentBlanks: 'EB-[number 01]-[day]',
    duplicateEach: 10,
    spikeEach: 20,
    coolers: 1,
    days: 1,
    tool: TOOLS[0],
    way: WAYS[0],
    decontamination: 'between points and between intervals',
  };
}

/** How many containers of each group a line asks for: "3 × 40 mL vial" is 3; one where none is said. */
export function containerLines(text: string): readonly {
  readonly analytes: string;
  readonly container: string;
  readonly count: number;
}[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => {
      const parts = line.split(':');
      const container = (parts.length > 1 ? parts.slice(1).join(':') : line).trim();
      const count = Number(/^(\d+)\s*[×x*]/.exec(container)?.[1] ?? 1);
      return { analytes: parts.length > 1 ? (parts[0] ?? '').trim() : '', container, count };
    });
}
