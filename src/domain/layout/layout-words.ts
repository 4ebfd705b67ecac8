import { direction, fixed, unitText } from '../show';
import type { LengthUnit } from '../units';
import type { TriedChance } from './as-laid';
import type { Block } from './blocks';
import type { DraftProblem } from './drawing';
import type { LayoutProblem } from './grids';
import type { NamingProblem, PatternProblem } from './numbering';
import type { Shift } from './shift';
import type { Stake } from './stakes';

/** A number in the grid's unit, with it: "12.5 ftUS". */
export const inGrid = (value: number, unit: LengthUnit, decimals = 1) =>
  `${fixed(value, decimals)} ${unitText(unit)}`;

/**
 * "71.2 % ± 0.3 %": a chance found by trying, with one standard error. Trying
 * shows neither "always" nor "never": what prints as 100.0 % is more than 99.9 %.
 */
export function chanceWords({ chance, standardError }: TriedChance): string {
  const percent = fixed(100 * chance, 1);
  if (percent === '100.0') return 'more than 99.9 %';
  if (percent === '0.0') return 'less than 0.1 %';
  return `${percent} % ± ${fixed(100 * standardError, 1)} %`;
}

/** An area in the grid's unit squared, and in acres or hectares where it is large. */
export function areaWords(area: number, unit: LengthUnit): string {
  const squares = `${fixed(area, area < 100 ? 1 : 0)} ${unitText(unit)}²`;
  if (unit === 'm') return area < 1_000 ? squares : `${squares} (${fixed(area / 10_000, 2)} ha)`;
  return area < 4_000 ? squares : `${squares} (${fixed(area / 43_560, 2)} acres)`;
}

const nameOf = ({ kind, name }: { readonly kind: string; readonly name: string }) =>
  `${kind} ${name}`;

/** Why a point cannot stand there: "3.2 ft from utility Gas main, which asks 5 ft". */
export function blockWords(block: Block, unit: LengthUnit): string {
  switch (block.kind) {
    case 'outside':
      return `outside the boundary by ${inGrid(block.distance, unit)}`;
    case 'on-boundary':
      return 'on the boundary';
    case 'inside':
      return `in ${nameOf(block.of)}`;
    case 'within-buffer':
      return `${inGrid(block.distance, unit)} from ${nameOf(block.of)}, which asks ${inGrid(block.buffer, unit)}`;
  }
}

/** "Shifted 7.1 ft toward 090° from E 488490.00, N 1822300.00". */
export const shiftWords = ({ distance, azimuth, from: [east, north] }: Shift, unit: LengthUnit) =>
  `Shifted ${inGrid(distance, unit)} toward ${direction(azimuth)} from E ${fixed(east, 2)}, N ${fixed(north, 2)}`;

/** The shifts a point's remark tells of, as `shiftWords` begins them: "shifted 7.1 ft toward 090°". */
export const shiftNoted = (note: string | null): string[] =>
  [...(note ?? '').matchAll(/\bShifted (\d[\d.]* \S+ toward \d{3}°)/g)].map(
    ([, by]) => `shifted ${by}`,
  );

/** Where a stake stands in its layout, in words: "row 2, column 5". */
export const countsWords = ({ counts }: Pick<Stake, 'counts'>) =>
  Object.entries(counts)
    .map(([word, n]) => `${word} ${n}`)
    .join(', ');

export function layoutProblemWords(problem: LayoutProblem): string {
  switch (problem.kind) {
    case 'no-boundary':
      return 'No boundary is drawn. Draw one first: a layout is clipped to it.';
    case 'no-spacing':
      return 'Give a spacing above zero.';
    case 'too-many':
      return `That would be about ${problem.about} points; ${problem.most} is the most. Is the spacing in the right unit?`;
  }
}

export function draftProblemWords(problem: DraftProblem): string {
  switch (problem.kind) {
    case 'too-few': {
      const more = problem.need - problem.have;
      return `${more} more corner${more === 1 ? '' : 's'} needed.`;
    }
    case 'crosses-itself':
      return `The outline crosses itself near E ${fixed(problem.at[0], 1)}, N ${fixed(problem.at[1], 1)}.`;
    case 'no-ground':
      return 'All corners lie in one line: there is no ground within them.';
  }
}

export function patternProblemWords({ kind, found, words }: PatternProblem): string {
  const offered = `Words here: ${words.map((word) => `[${word} 1]`).join(', ')}.`;
  switch (kind) {
    case 'empty':
      return `Give a pattern, such as DP-[number 01]. ${offered}`;
    case 'unclosed':
      return `A bracket is not closed: ${found}`;
    case 'unknown-word':
      return `“${found}” is not known here. ${offered}`;
    case 'unreadable-example':
      return `“${found}”: give one example after the word, digits or a letter.`;
  }
}

export const namingProblemWords = (problem: NamingProblem): string =>
  problem.kind === 'name-twice'
    ? `The pattern gives two points the name ${problem.name}.`
    : 'The pattern asks for a count this layout does not have.';
