import type { Site } from '../site/site';
import { NO_SCREEN } from './column-writer';
import { judgedAt, worstRowsByScreen, type JudgedSelection } from './judged-selection';
import type { JudgedResult } from './site-results';
import { clings, turbidSamples } from './turbid';

/**
 * Few results that draw what all of a selection would: the worst of each screen,
 * and of each screen one that turbid water may have raised, where there is one.
 */
export function drawnOf(site: Site, of: JudgedSelection): JudgedResult[] {
  const rows = [...worstRowsByScreen(of), ...raisedRowsByScreen(site, of)];
  return rows.map((row) => judgedAt(of, row));
}

function raisedRowsByScreen(site: Site, { columns, rows }: JudgedSelection): number[] {
  const turbid = turbidSamples(site);
  if (turbid.size === 0) return [];
  const isTurbid = Uint8Array.from(columns.samples, ({ sample }) =>
    turbid.has(sample.id) ? 1 : 0,
  );
  const doesCling = Uint8Array.from(columns.kinds, (kind) => (clings(kind) ? 1 : 0));
  const found = new Map<number, number>();
  for (const row of rows) {
    const sample = columns.sample[row] ?? 0;
    if (isTurbid[sample] === 0 || doesCling[columns.kind[row] ?? 0] === 0) continue;
    const screen = columns.screen[sample] ?? NO_SCREEN;
    if (screen !== NO_SCREEN && !found.has(screen)) found.set(screen, row);
  }
  return [...found.values()];
}
