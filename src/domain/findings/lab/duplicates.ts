import { groupBy } from '../../group';
import { duplicateAgreement, type DuplicateLimits } from '../../lab/duplicates';
import { duplicateLimitsOf } from '../../lab/lab-settings';
import type { SiteReading } from '../../lab/site-results';
import { cell } from '../../site/cite';
import type { Sample } from '../../site/schema';
import type { Site } from '../../site/site';
import { fixed, significant } from '../../show';
import type { Finding, Rule } from '../finding';
import { counted, finding, listed } from '../words';
import { placesOf, resultsAt, samplesAt } from './event-results';

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
  const parent = site.samples.get(duplicate.parent);
  if (!parent)
    return `${duplicate.id} is said to repeat ${duplicate.parent}, and there is no such sample.`;
  if (parent.kind !== 'field sample')
    return `${duplicate.id} is said to repeat ${parent.id}, which is a ${parent.kind}.`;
  if (parent.screen !== duplicate.screen || parent.event !== duplicate.event)
    return `${duplicate.id} is said to repeat ${parent.id}, which is of another screen or event.`;
  return null;
}

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
