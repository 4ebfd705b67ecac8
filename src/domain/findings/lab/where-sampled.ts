import { groupBy } from '../../group';
import type { SiteReading } from '../../lab/site-results';
import { cell } from '../../site/cite';
import type { Sample } from '../../site/schema';
import type { Site } from '../../site/site';
import { intervalOf } from '../../water/screen-interval';
import type { Finding, Rule } from '../finding';
import { soundingOff } from '../ground/interval';
import { counted, finding, listed, said } from '../words';
import { placesOf, resultsAt, samplesAt } from './event-results';

/** Samples from screens whose interval is uncertain: at what depth they are true is not known. */
export const uncertainInterval: Rule = ({ site, event }) =>
  samplesAt(site, event).flatMap((sample): Finding[] => {
    if (sample.kind !== 'field sample' || sample.screen === null) return [];
    const screen = site.screens.get(sample.screen);
    const location = site.locations.get(screen?.location ?? '');
    if (!screen || !location) return [];
    const off = soundingOff(screen, location);
    if (off === null || Math.abs(off) <= site.settings.soundingTolerance + 1e-9) return [];
    return [
      finding('sample of uncertain depth', sample.id, event, {
        severity: 'caution',
        who: placesOf(site, [sample]),
        says: `${sample.id} comes from ${screen.id}, which sounded ${said(site, Math.abs(off))} ${off < 0 ? 'short of' : 'below'} the base of its screen: its depth is uncertain.`,
        todo: 'Mark the depth as uncertain wherever the result is shown by depth.',
        cells: [cell('samples', sample, 'screen'), cell('screens', screen, 'sounded_depth')],
      }),
    ];
  });

/** A sample drawn from another interval than its screen: part of it, or beyond it. */
export const sampledInterval: Rule = ({ site, event }) =>
  samplesAt(site, event).flatMap((sample): Finding[] => {
    const { top_depth: top, base_depth: base } = sample;
    if (sample.screen === null || (top === null && base === null)) return [];
    const screen = site.screens.get(sample.screen);
    const location = site.locations.get(screen?.location ?? '');
    const open = screen && location && intervalOf(screen, location);
    if (!screen || !open?.ok) return [];
    const { topDepth, baseDepth } = open.value;
    const [from, to] = [top?.value ?? topDepth.value, base?.value ?? baseDepth.value];
    const apart = site.settings.soundingTolerance + 1e-9;
    const beyond = topDepth.value - from > apart || to - baseDepth.value > apart;
    const part = from - topDepth.value > apart || baseDepth.value - to > apart;
    if (!beyond && !part) return [];
    return [
      finding('sampled interval', sample.id, event, {
        severity: beyond ? 'caution' : 'note',
        who: placesOf(site, [sample]),
        says: `${sample.id} was drawn from ${said(site, from)} to ${said(site, to)} below ground; ${screen.id} is open from ${said(site, topDepth.value)} to ${said(site, baseDepth.value)}.`,
        todo: beyond
          ? 'Correct the depths of the sample or of the screen: water cannot come from where nothing is open.'
          : 'Show the result at the depth it was drawn from.',
        cells: [cell('samples', sample, top ? 'top_depth' : 'base_depth')],
      }),
    ];
  });

type Deep = { readonly result: SiteReading; readonly middle: number };

/**
 * Something found deep, reached through an interval with more of it: rods and
 * sampler may have carried it down.
 */
export const dragDown: Rule = ({ site, event }) => {
  if (event === null) return [];
  const places = groupBy(
    resultsAt(site, event).filter(
      ({ sample, location }) => sample.kind === 'field sample' && location?.kind === 'direct push',
    ),
    ({ location }) => location?.id ?? '',
  );
  const carried = [...places.values()].flatMap((results) => carriedIn(site, results));
  const sealed = carried.filter((one) => one.sealed);
  return [
    ...carried.filter((one) => !one.sealed).map((one) => exposedFinding(site, event, one)),
    ...(sealed.length > 0 ? [sealedFinding(site, event, sealed)] : []),
  ];
};

type Carried = {
  readonly sample: Sample;
  /** What was found, and the most of it found above. */
  readonly pairs: readonly { readonly found: SiteReading; readonly above: SiteReading }[];
  /** Every hole of the location was pushed with a sealed sampler. */
  readonly sealed: boolean;
};

const seen = ({ reading }: SiteReading) =>
  reading.state === 'detected' || reading.state === 'more than';

function carriedIn(site: Site, results: readonly SiteReading[]): Carried[] {
  const deep = results.flatMap((result): Deep[] => {
    const found = result.screen && result.location && intervalOf(result.screen, result.location);
    if (!seen(result) || !found?.ok) return [];
    const { topDepth, baseDepth } = found.value;
    return [{ result, middle: (topDepth.value + baseDepth.value) / 2 }];
  });
  const location = results[0]?.location?.id;
  const sealed = site.attempts
    .filter((hole) => hole.location === location)
    .every(({ method }) => /sealed/i.test(method ?? ''));
  return [...groupBy(deep, ({ result }) => result.sample)].flatMap(([sample, found]) => {
    const pairs = found.flatMap(({ result, middle }) => {
      const [above] = deep
        .filter(({ result: other, middle: higher }) => higher < middle && hotter(other, result))
        .toSorted((a, b) => b.result.reading.amount - a.result.reading.amount);
      return above ? [{ found: result, above: above.result }] : [];
    });
    return pairs.length > 0 ? [{ sample, pairs, sealed }] : [];
  });
}

const hotter = (one: SiteReading, than: SiteReading) =>
  one.reading.key === than.reading.key &&
  one.reading.unit?.dimension === than.reading.unit?.dimension &&
  one.row.fraction === than.row.fraction &&
  one.reading.amount > than.reading.amount;

const amountSaid = ({ row }: SiteReading) => `${row.value ?? ''} ${row.unit}`;

const cellsOf = ({ pairs }: Carried) =>
  pairs.flatMap(({ found, above }) => [
    cell('results', found.row, 'value'),
    cell('results', above.row, 'value'),
  ]);

const exposedFinding = (site: Site, event: string, one: Carried): Finding =>
  finding('possible drag-down', one.sample.id, event, {
    severity: 'caution',
    who: placesOf(site, [one.sample]),
    says: `${one.sample.id} was reached through an interval that holds more: ${listed(
      one.pairs.map(
        ({ found, above }) =>
          `${found.row.analyte} ${amountSaid(found)}, and ${amountSaid(above)} above it in ${above.sample.id}`,
      ),
      4,
    )}. The sampler may have carried it down.`,
    todo: 'Ask how it was pushed and cleaned between intervals before calling the deep water contaminated.',
    cells: cellsOf(one),
  });

const sealedFinding = (site: Site, event: string, all: readonly Carried[]): Finding =>
  finding('possible drag-down', 'sealed samplers', event, {
    severity: 'note',
    who: placesOf(
      site,
      all.map(({ sample }) => sample),
    ),
    says: `${counted(all.length, 'sample')} found something deep that was reached through an interval with more of it (${listed(all.map(({ sample }) => sample.id))}). The samplers were sealed on the way.`,
    todo: 'Keep it in mind where the deep result is small beside the shallow one; ask how tools were cleaned.',
    cells: all.flatMap(cellsOf),
  });
