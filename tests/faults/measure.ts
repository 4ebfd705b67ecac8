/**
 * How many planted mistakes the findings name, by kind and by size. To read the
 * table for more mistakes than the tests plant:
 * `npx tsx tests/faults/measure.ts 2000`.
 */
import { fileURLToPath } from 'node:url';
import type { ReviewedFinding } from '../../src/domain/findings/finding';
import { examine, findingsOf } from '../../src/domain/findings/findings-of';
import type { Site } from '../../src/domain/site/site';
import { KINDS, plant, type Planted, type PlantedSite } from './planted';
import { demoSites, inlSite } from './sites';

/** Named: a new finding, caution or worse, is about the wells of the mistake and nobody else; or the row is refused by name. */
export type Verdict =
  'named' | 'among others' | 'seen, nobody named' | 'another well named' | 'missed';

export type Tried = {
  readonly planted: Planted;
  readonly verdict: Verdict;
  /** Rules whose new findings name the wells of the mistake and nobody else. */
  readonly by: readonly string[];
  /** Other wells that a new residual, exchange or change names beside it. */
  readonly wrongly: readonly string[];
  /** Mistake over the scatter of the plane; Infinity where it leaves no head, NaN where there is no plane. */
  readonly size: number;
};

/** All findings of a site and its gauged events, by what they are about. */
export function allFindings(site: Site): ReadonlyMap<string, ReviewedFinding> {
  const gauged = new Set(site.waterLevels.map(({ event }) => event));
  const all = [...site.events.keys()]
    .filter((event) => gauged.has(event))
    .flatMap((event) => findingsOf(examine(site, event)));
  return new Map(all.map((finding) => [finding.about, finding]));
}

const baselines = new WeakMap<PlantedSite, ReadonlyMap<string, ReviewedFinding>>();

function baselineOf(from: PlantedSite) {
  const before = baselines.get(from) ?? allFindings(from.site);
  baselines.set(from, before);
  return before;
}

/** Rules that say of one well that it, and not another, is wrong. */
const NAMING = ['residual stands out', 'readings exchanged', 'change out of line', 'zone in doubt'];

/** The reader refused the row and named it: a depth to product below the water, for one. */
const isRefused = ({ cells, site: from }: Planted, site: Site) =>
  cells.some(({ table, row }) => {
    const inRow = (of: Site) =>
      of.problems.some((problem) => problem.table === table && problem.row === row);
    return inRow(site) && !inRow(from.site);
  });

/** New by what it is about, or raised: that its numbers moved a little is not new. */
const isNew = (finding: ReviewedFinding, before: ReviewedFinding | undefined) =>
  before === undefined || RANK[finding.severity] < RANK[before.severity];

const RANK = { serious: 0, caution: 1, note: 2 } as const;

export function tried(planted: Planted): Tried {
  const baseline = baselineOf(planted.site);
  const site = planted.site.read(planted.changed);
  const fresh = [...allFindings(site).values()].filter(
    (finding) => finding.severity !== 'note' && isNew(finding, baseline.get(finding.about)),
  );
  const wells = new Set(planted.wells);
  const theirs = fresh.filter(({ who }) => who.some((id) => wells.has(id)));
  const only = theirs.filter(({ who }) => who.every((id) => wells.has(id)));
  const strangers = fresh.filter(
    ({ rule, who }) => NAMING.includes(rule) && who.length > 0 && !who.some((id) => wells.has(id)),
  );
  const refused = isRefused(planted, site);
  return {
    planted,
    verdict:
      only.length > 0 || refused
        ? 'named'
        : strangers.length > 0
          ? 'another well named'
          : theirs.length > 0
            ? 'among others'
            : fresh.length > 0
              ? 'seen, nobody named'
              : 'missed',
    by: [...new Set([...only.map(({ rule }) => rule), ...(refused ? ['row refused'] : [])])],
    wrongly: [...new Set(strangers.flatMap(({ who }) => who))],
    size: sizeOf(planted),
  };
}

/** NaN where a zone has no plane to compare with. */
const sizeOf = ({ kind, shift, scatter }: Planted) =>
  shift !== null ? shift / scatter : kind === 'wrong zone' ? NaN : Infinity;

/** Larger than four times the residual scatter: those the findings must name. */
export const isLarge = ({ size }: Tried) => size > 4;

/** Over five times the scatter, and not in a well that nearly makes the plane alone. */
export const isFair = ({ size, planted }: Tried) => size > 5 && planted.leverage < 0.5;

/** Ten feet and more, or no head left at all. */
export const isGross = ({ planted: { shift }, size }: Tried) =>
  size === Infinity || (shift !== null && shift >= 3.04);

export type Rate = { readonly of: number; readonly named: number };

export const rateOf = (all: readonly Tried[]): Rate => ({
  of: all.length,
  named: all.filter(({ verdict }) => verdict === 'named').length,
});

const shown = ({ of, named }: Rate) =>
  of === 0 ? '–' : `${named}/${of} ${Math.round((100 * named) / of)} %`;

const SIZES: readonly (readonly [string, (one: Tried) => boolean])[] = [
  ['under 4 s', ({ size }) => size <= 4],
  ['4–10 s', ({ size }) => size > 4 && size <= 10],
  ['10–100 s', ({ size }) => size > 10 && size <= 100],
  ['over 100 s', ({ size }) => size > 100 && size < Infinity],
  ['no head left', ({ size }) => size === Infinity],
  ['no plane', ({ size }) => Number.isNaN(size)],
];

/** The rates by kind down and by size across, as lines of text. */
export function tableOf(all: readonly Tried[]): string {
  const row = (name: string, of: readonly Tried[]) =>
    [name.padEnd(30), ...SIZES.map(([, is]) => shown(rateOf(of.filter(is))).padStart(14))].join('');
  return [
    [''.padEnd(30), ...SIZES.map(([name]) => name.padStart(14))].join(''),
    ...KINDS.map((kind) =>
      row(
        kind,
        all.filter(({ planted }) => planted.kind === kind),
      ),
    ),
    row('all', all),
  ].join('\n');
}

export const missedLines = (all: readonly Tried[]) =>
  all.map(
    ({ planted: p, verdict, size, wrongly }) =>
      `${verdict}: ${p.kind}, ${p.site.name} ${p.event} ${p.zone ?? ''}: ${p.says} (${size.toFixed(1)} s, leverage ${p.leverage.toFixed(2)}, ${p.count} wells)${wrongly.length > 0 ? `, wrongly ${wrongly.join(' ')}` : ''}`,
  );

/** So many mistakes in the demo sites and so many in the other, tried one by one. */
export const measure = (demos: number, inl: number) => ({
  demos: plant(demoSites(), demos).map(tried),
  inl: plant([inlSite()], inl).map(tried),
});

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const count = Number(process.argv[2] ?? 200);
  const { demos, inl } = measure(Math.round(0.7 * count), Math.round(0.3 * count));
  for (const [name, all] of [
    ['Demo sites', demos],
    ['INL south-west', inl],
  ] as const) {
    console.log(`\n${name}: ${all.length} mistakes\n${tableOf(all)}`);
    console.log(`larger than 4 s: ${shown(rateOf(all.filter(isLarge)))}`);
    console.log(`over 5 s, leverage under 0.5: ${shown(rateOf(all.filter(isFair)))}`);
    console.log(`ten feet and more: ${shown(rateOf(all.filter(isGross)))}`);
    console.log(
      `another well named beside or instead: ${all.filter(({ wrongly }) => wrongly.length > 0).length}`,
    );
    const missed = all.filter((one) => isLarge(one) && one.verdict !== 'named');
    console.log(missedLines(missed).join('\n'));
  }
}
