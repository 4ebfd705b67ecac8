import type { Site } from '../site/site';
import { NO_SCREEN } from './column-writer';
import { worstRowsByScreen, type JudgedSelection } from './judged-selection';
import type { Judged } from './screening';
import type { JudgedResult, PlacedSample } from './site-results';
import { clings, turbidSamples } from './turbid';
import { outcomeWithCode } from './verdict-columns';

/** What a mark on the map needs of a result. */
export type DrawnResult = PlacedSample & {
  readonly reading: Pick<JudgedResult['reading'], 'key' | 'result'>;
  readonly judged: Pick<Judged, 'outcome'>;
};

/**
 * Few results that draw what all of a selection would: the worst of each screen,
 * and of each screen one that turbid water may have raised, where there is one.
 */
export function drawnOf(site: Site, of: JudgedSelection): DrawnResult[] {
  const { columns, codes } = of;
  return [...worstRowsByScreen(of), ...raisedRowsByScreen(site, of)].flatMap((row) => {
    const sample = columns.samples[columns.sample[row] ?? 0];
    const reading = columns.kinds[columns.kind[row] ?? 0];
    const judged = { outcome: outcomeWithCode(codes[row] ?? 0) };
    return sample && reading ? [{ ...sample, reading, judged }] : [];
  });
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
