import { inUnits, type LengthUnit } from '../../domain/units';
import type { Section, SectionColumn } from '../../domain/water/section';
import { axisOver } from '../charts/chart-scale';

/** Room about the drawing, in px: names above, elevations at the left, distances below. */
export const ROOM = { left: 58, right: 26, top: 74, bottom: 34 } as const;

/** From metres to px of a section drawn so wide. */
export type SectionScale = {
  readonly height: number;
  readonly x: (at: number) => number;
  readonly y: (elevation: number) => number;
};

export function sectionScale(
  { length, lowest, highest }: Section,
  width: number,
  exaggeration: number,
): SectionScale {
  const perMetre = (width - ROOM.left - ROOM.right) / Math.max(length, 1e-6);
  const vertical = perMetre * exaggeration;
  // Room above the ground for a head that stands above it, and below for the last base.
  return {
    height: ROOM.top + ROOM.bottom + (highest - lowest) * vertical + 12,
    x: (at) => ROOM.left + at * perMetre,
    y: (elevation) => ROOM.top + (highest - elevation) * vertical,
  };
}

/**
 * Which of some names can be written side by side: those of a lower rank take
 * room first, each at least so far from the others; those of rank 0 always.
 */
export function namesThatFit<Name>(
  names: readonly Name[],
  at: (name: Name) => number,
  apart: number,
  rank: (name: Name) => number,
): Name[] {
  const fit = new Set<Name>();
  for (const name of names.toSorted((a, b) => rank(a) - rank(b)))
    if (rank(name) === 0 || [...fit].every((other) => Math.abs(at(other) - at(name)) >= apart))
      fit.add(name);
  return names.filter((name) => fit.has(name));
}

/** Deeper than any screen, metres. */
const LAST = 1e6;

/** For `namesThatFit`: the chosen point, then points gauged, the one open higher up first, then the rest. */
export const nameRank = ({ location, ground, screens }: SectionColumn, selected: string | null) => {
  if (location.id === selected) return 0;
  const tops = screens.flatMap(({ gauged, top }) => (gauged?.head ? top : []));
  return tops.length === 0 ? LAST : 1 + Math.max(0, ground - Math.max(...tops));
};

/** Round elevations to rule a section at, in the vertical unit, lowest first. */
export const elevationTicks = ({ lowest, highest }: Section, vertical: LengthUnit): number[] => {
  const [least, most] = [inUnits(lowest, vertical), inUnits(highest, vertical)];
  return axisOver([least, most], 7).ticks.filter((tick) => tick <= most && tick >= least);
};

export const exaggerationWords = (times: number) =>
  times === 1 ? 'no vertical exaggeration' : `vertical exaggeration ${times} ×`;
