/** Reference answers from gstat, scipy and exact rationals; each file says how it was made. */
import { readFileSync } from 'node:fs';
import type { SurfacePoint } from '../../../src/domain/water/surface/surface-point';
import { metres } from '../../../src/domain/units';

export const oracleText = (name: string): string =>
  readFileSync(new URL(`../../fixtures/oracles/${name}`, import.meta.url), 'utf8');

/** Rows of an oracle table by column name; lines beginning with # are remarks. */
export function oracleRows(name: string): Record<string, string>[] {
  const [header = '', ...lines] = oracleText(name)
    .split('\n')
    .filter((line) => line !== '' && !line.startsWith('#'));
  const columns = header.split(',');
  return lines.map((line) =>
    Object.fromEntries(line.split(',').map((cell, i) => [columns[i] ?? '', cell])),
  );
}

export const number = (row: Record<string, string>, column: string): number => {
  const value = Number(row[column]);
  if (row[column] === undefined || row[column] === '' || Number.isNaN(value))
    throw new Error(`no number in ${column}: ${JSON.stringify(row)}`);
  return value;
};

/** A head at a place; the oracles' feet are passed as they stand, the arithmetic having no unit. */
export const point = (id: string, x: number, y: number, head: number, sigma = 0): SurfacePoint => ({
  id,
  x: metres(x),
  y: metres(y),
  head: metres(head),
  sigma: metres(sigma),
});

export const siteHeads = (site: string, sigma = 0): SurfacePoint[] =>
  oracleRows(`c_${site}_heads.csv`).map((row) =>
    point(row.well ?? '', number(row, 'x'), number(row, 'y'), number(row, 'head'), sigma),
  );

/** The six wells of the worked case of the plane: heads in feet, places in feet. */
export const SIX_WELLS: readonly SurfacePoint[] = [
  point('P1', 1000, 5000, 92.53),
  point('P2', 1150, 5040, 92.16),
  point('P3', 1300, 5010, 91.82),
  point('P4', 1050, 5150, 92.75),
  point('P5', 1200, 5170, 92.32),
  point('P6', 1350, 5140, 91.94),
];
