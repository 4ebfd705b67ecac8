import { groupBy } from '../../group';
import { duplicateAgreement, type DuplicateLimits } from '../../lab/duplicates';
import { duplicatesOver } from '../../lab/duplicates-over';
import { duplicateLimitsOf } from '../../lab/lab-settings';
import { parentOf, samplesFrom } from '../../lab/sample-place';
import { levelSetsOf, type SiteReading } from '../../lab/site-results';
import { cell } from '../../site/cite';
import type { Sample } from '../../site/schema';
import type { Site } from '../../site/site';
import { fixed, significant } from '../../show';
import type { Finding, Rule } from '../finding';
import { counted, finding, listed } from '../words';
import { placesOf, resultsAt, samplesAt } from './event-results';
import { duplicateOverSaid } from './exceedance-words';

/** Field duplicates that name no parent, or one that cannot be theirs. */
export const duplicateParents: Rule = ({ site, event }) => {
  const duplicates = samplesAt(site, event).filter(({ kind }) => kind === 'field duplicate');
  const orphans = duplicates.filter(({ parent }) => parent === null);
  const wrong = duplicates.flatMap((duplicate): Finding[] => {
    const says = mismatch(site, duplicate);
    return says === null
      ? []
      : [
          finding('duplicate and parent', duplicate.id, event, {
            severity: 'caution',
            who: placesOf(site, [duplicate]),
            says,
            todo: 'Name the sample it repeats.',
            cells: [cell('samples', duplicate, 'parent')],
          }),
        ];
  });
  return orphans.length === 0
    ? wrong
    : [
        ...wrong,
        finding('duplicates without a parent', 'samples', event, {
          severity: 'caution',
          who: placesOf(site, orphans),
          says: `${counted(orphans.length, 'field duplicate')} ${orphans.length === 1 ? 'names' : 'name'} no parent (${listed(orphans.map(({ id }) => id))}): what ${orphans.length === 1 ? 'it repeats' : 'they repeat'} cannot be compared.`,
          todo: 'Write the sample each repeats into its row.',
          cells: orphans.map((sample) => cell('samples', sample, 'parent')),
        }),
      ];
};

function mismatch(site: Site, duplicate: Sample): string | null {
  if (duplicate.parent === null) return null;
  const parent = parentOf(site, duplicate);
  if (!parent)
    return `${duplicate.id} is said to repeat ${duplicate.parent}, and there is no such sample.${samplesLike(site, duplicate)}`;
  if (parent.kind !== 'field sample')
    return `${duplicate.id} is said to repeat ${parent.id}, which is a ${parent.kind}.`;
  // A blind duplicate has no screen of its own: it is of its parent's.
  if (duplicate.screen !== null && parent.screen !== duplicate.screen)
    return `${duplicate.id} is said to repeat ${parent.id}, which is of another screen (${parent.screen ?? 'none'}, not ${duplicate.screen}).`;
  if (parent.event !== duplicate.event)
    return `${duplicate.id} is said to repeat ${parent.id}, which is of another event (${parent.event}).`;
  return null;
}

/** " Samples of GP-02 are GP-02 2025-10-14." where what was written is a point and not a sample; else nothing. */
function samplesLike(site: Site, { parent, event }: Sample): string {
  const there = samplesFrom(site, parent ?? '', event);
  return there.length === 0
    ? ''
    : ` ${parent ?? ''} is a point; its ${there.length === 1 ? 'sample is' : 'samples are'} ${listed(there.map(({ id }) => id))}.`;
}

/** Duplicates over a level where no field sample of their point is known to be: seen among the field samples, the point looks clean. */
export const duplicateExceeds: Rule = ({ site, event }) => {
  if (event === null) return [];
  const { levelSets } = site.settings;
  const inUse = [...levelSetsOf(site).keys()].filter(
    (set) => levelSets.length === 0 || levelSets.includes(set),
  );
  return inUse.flatMap((set) =>
    duplicatesOver(site, set, event).map((over): Finding =>
      finding('duplicate exceeds', `${over.duplicate.id}, ${set}`, event, {
        severity: 'caution',
        who: over.points,
        says: `${duplicateOverSaid(over)} Levels: ${set}.`,
        todo:
          over.by === 'parent'
            ? 'Count the point as exceeding until the two are explained.'
            : 'Name its parent, from the field notes; until then no point of these is known to be clean.',
        cells: [
          cell('samples', over.duplicate, 'parent'),
          ...over.over.map(({ result: { row } }) => cell('results', row, 'value')),
        ],
      }),
    ),
  );
};

/** Duplicates that do not agree with their parents within the limits in use. */
export const duplicateDisagrees: Rule = ({ site, event }) => {
  if (event === null) return [];
  const bySample = groupBy(resultsAt(site, event), ({ sample }) => sample.id);
  const limits = duplicateLimitsOf(site.settings);
  return samplesAt(site, event).flatMap((duplicate): Finding[] => {
    const { parent } = duplicate;
    if (duplicate.kind !== 'field duplicate' || parent === null) return [];
    const apart = (bySample.get(duplicate.id) ?? []).flatMap((repeat) =>
      (bySample.get(parent) ?? []).flatMap((first) => disagreement(first, repeat, limits)),
    );
    return apart.length === 0
      ? []
      : [
          finding('duplicate disagrees', duplicate.id, event, {
            severity: 'caution',
            who: placesOf(site, [duplicate]),
            says: `${duplicate.id} does not agree with ${parent}: ${listed(apart.map(({ says }) => says))}.`,
            todo: 'Take the higher of each pair as the result, and ask the laboratory where the difference is large; the numbers stay as reported.',
            cells: apart.flatMap(({ rows }) =>
              rows.map(({ row }) => cell('results', row, 'value')),
            ),
          }),
        ];
  });
};

function disagreement(first: SiteReading, repeat: SiteReading, limits: DuplicateLimits) {
  if (first.reading.key !== repeat.reading.key || first.row.fraction !== repeat.row.fraction)
    return [];
  const agreement = duplicateAgreement(first.reading, repeat.reading, limits);
  if ((agreement.kind !== 'rpd' && agreement.kind !== 'difference') || agreement.agrees) return [];
  const values = `${first.row.value ?? ''} and ${repeat.row.value ?? ''} ${first.row.unit}`;
  const by =
    agreement.kind === 'rpd'
      ? `RPD ${fixed(agreement.value, 0)} %, limit ${agreement.allowed} %`
      : `apart by ${significant(agreement.value, 2)} ${agreement.unit}, limit ${significant(agreement.allowed, 2)}`;
  return [{ says: `${first.row.analyte} ${values} (${by})`, rows: [first, repeat] }];
}
