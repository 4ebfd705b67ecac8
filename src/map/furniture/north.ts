import { fixed } from '../../domain/show';

export type NorthWords = {
  /** What is up on the sheet. */
  readonly up: string;
  /** Where true north is, as one sentence without its stop, and as short lines; blank where nothing is said. */
  readonly beside: string;
  readonly lines: readonly string[];
};

/**
 * The north mark in words, for a convergence in degrees, positive where grid
 * north is east of true north: true north then lies to the west of up. Undefined
 * where the site has no place yet, and so no convergence.
 */
export function trueNorthWords(convergence: number | null | undefined): NorthWords {
  if (convergence === undefined) return { up: 'Grid north', beside: '', lines: [] };
  if (convergence === null)
    return {
      up: 'Site north',
      beside: 'True north is not known',
      lines: ['true north', 'not known'],
    };
  const angle = fixed(Math.abs(convergence), 2);
  if (angle === '0.00')
    return { up: 'Grid north', beside: 'True north is the same', lines: ['and true north'] };
  const side = convergence > 0 ? 'west' : 'east';
  return {
    up: 'Grid north',
    beside: `True north is ${angle}° ${side} of it`,
    lines: ['true north', `${angle}° ${side} of it`],
  };
}
