import { inUnits, metres, type LengthUnit, type Metres } from '../../domain/units';
import { LINES } from '../look/look';
import type { Extent, LineItem } from './scene';

/** A line of the graticule: where it runs, in metres, and the round coordinate it stands for. */
export type Gridline = { readonly at: Metres; readonly label: string };

export type Graticule = {
  /** West to east. */
  readonly eastings: readonly Gridline[];
  /** South to north. */
  readonly northings: readonly Gridline[];
  /** In the site's unit. */
  readonly interval: number;
};

/** 1, 2 or 5 times a power of ten: the greatest not above a value. */
export function roundDown(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  // Rounding of the power may leave 5 a hair above 5.
  const step = [5, 2, 1].find((n) => n * power <= value * (1 + 1e-12)) ?? 1;
  return step * power;
}

/** A coordinate with its thousands parted: "1,234,500". */
export function grouped(value: number, decimals = 0): string {
  const [whole = '', part] = Math.abs(value).toFixed(decimals).split('.');
  const text = whole.replace(/\B(?=(\d{3})+$)/g, ',') + (part ? `.${part}` : '');
  return value < 0 && Number(text.replaceAll(',', '')) !== 0 ? `−${text}` : text;
}

/**
 * Lines at round coordinates of the site's unit, parted by at least `apart`
 * metres on the ground of the grid, and at most two and a half times that.
 */
export function graticule(extent: Extent, unit: LengthUnit, apart: number): Graticule {
  const interval = roundUp(inUnits(metres(apart), unit));
  const decimals = Math.max(0, -Math.floor(Math.log10(interval) + 1e-9));
  const along = (from: number, to: number): Gridline[] => {
    const first = Math.ceil(inUnits(metres(from), unit) / interval);
    const last = Math.floor(inUnits(metres(to), unit) / interval);
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => {
      const value = (first + i) * interval;
      return { at: metres(value, unit), label: grouped(value, decimals) };
    });
  };
  return {
    eastings: along(extent.west, extent.east),
    northings: along(extent.south, extent.north),
    interval,
  };
}

/** 1, 2 or 5 times a power of ten: the least not below a value. */
function roundUp(value: number): number {
  const down = roundDown(value);
  if (down >= value * (1 - 1e-12)) return down;
  return roundDown(down * 2.5); // 1 → 2, 2 → 5, 5 → 10
}

/** How far lines are drawn, and how far apart they are, metres. */
export type Reach = { readonly extent: Extent; readonly apart: number };

/** Lines to be drawn, in a step of so many intervals beyond a window. */
const BEYOND = 12;

/**
 * A stretch of lines around a window that stays the same while the window
 * moves a little within it.
 */
export function reachOf(
  { west, south, east, north }: Extent,
  unit: LengthUnit,
  apart: number,
): Reach {
  const interval = metres(roundUp(inUnits(metres(apart), unit)), unit);
  const step = BEYOND * interval;
  const down = (value: number) => (Math.floor(value / step) - 1) * step;
  const up = (value: number) => (Math.ceil(value / step) + 1) * step;
  return {
    extent: { west: down(west), south: down(south), east: up(east), north: up(north) },
    apart: interval,
  };
}

/** The lines themselves, from edge to edge. */
export function graticuleLines({ extent, apart }: Reach, unit: LengthUnit): LineItem[] {
  const { west, south, east, north } = extent;
  const { eastings, northings } = graticule(extent, unit, apart);
  const line = (path: LineItem['path']): LineItem => ({
    kind: 'line',
    layer: 'graticule',
    path,
    weight: LINES.hair,
    colour: 'hairline',
  });
  return [
    ...eastings.map(({ at }) =>
      line([
        [at, south],
        [at, north],
      ]),
    ),
    ...northings.map(({ at }) =>
      line([
        [west, at],
        [east, at],
      ]),
    ),
  ];
}
