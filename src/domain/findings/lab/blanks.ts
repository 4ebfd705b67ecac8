import { groupBy } from '../../group';
import { blankFlag } from '../../lab/blanks';
import { blankRuleOf } from '../../lab/lab-settings';
import type { SiteReading } from '../../lab/site-results';
import { cell } from '../../site/cite';
import type { Sample } from '../../site/schema';
import type { Site } from '../../site/site';
import type { Finding, Rule } from '../finding';
import { dayOf } from '../moments';
import { counted, finding, listed } from '../words';
import { placesOf, resultSaid, resultsAt, samplesAt } from './event-results';

/**
 * Blanks with something in them, and the samples that concerns: those of its
 * cooler for a trip blank, of its day for a field blank, of its cooler or day for
 * an equipment blank that names no equipment they name too. Samples are flagged;
 * their numbers are never changed.
 */
export const blanks: Rule = ({ site, event }) => {
  if (event === null) return [];
  const bySample = groupBy(resultsAt(site, event), ({ sample }) => sample.id);
  const samples = samplesAt(site, event);
  const limits = blankRuleOf(site.settings);
  return samples.flatMap((blank): Finding[] => {
    if (!blank.kind.endsWith('blank')) return [];
    const seen = (bySample.get(blank.id) ?? []).filter(
      ({ row, reading }) =>
        (reading.state === 'detected' || reading.state === 'more than') &&
        reading.amount > 0 &&
        !OF_THE_WATER.test(row.analyte),
    );
    if (seen.length === 0) return [];
    const concerned = samples.filter((sample) => concerns(blank, sample));
    const flagged = concerned.filter((sample) =>
      (bySample.get(sample.id) ?? []).some((result) =>
        seen.some((found) => blankFlag(result.reading, found.reading, limits) !== null),
      ),
    );
    return [blankFinding(site, event, blank, seen, concerned, flagged)];
  });
};

/** What clean water has too. */
const OF_THE_WATER =
  /^(oxygen|dissolved oxygen|ph|temperature|specific conduct\w+|turbidity|alkalinity)\b/i;

function concerns(blank: Sample, sample: Sample): boolean {
  if (sample.kind !== 'field sample' && sample.kind !== 'field duplicate') return false;
  const day = (of: Sample) => (of.time === null ? null : dayOf(of.time));
  switch (blank.kind) {
    case 'trip blank':
      return blank.cooler === null || blank.cooler === sample.cooler;
    case 'field blank':
      return day(blank) === null || day(blank) === day(sample);
    default:
      if (blank.equipment !== null && sample.equipment !== null)
        return blank.equipment === sample.equipment;
      return blank.cooler !== null && sample.cooler !== null
        ? blank.cooler === sample.cooler
        : day(blank) === null || day(blank) === day(sample);
  }
}

const sharedWith = ({ kind, cooler, equipment }: Sample) =>
  kind === 'equipment blank' && equipment !== null
    ? 'equipment'
    : kind === 'field blank' || cooler === null
      ? 'day'
      : 'cooler';

function blankFinding(
  site: Site,
  event: string,
  blank: Sample,
  seen: readonly SiteReading[],
  concerned: readonly Sample[],
  flagged: readonly Sample[],
): Finding {
  const of = sharedWith(blank);
  return finding('found in a blank', blank.id, event, {
    severity: flagged.length > 0 ? 'caution' : 'note',
    who: placesOf(site, flagged),
    says: `${listed(seen.map(resultSaid))} ${seen.length === 1 ? 'was' : 'were'} found in the ${blank.kind} ${blank.id}. ${
      flagged.length > 0
        ? `Of the ${counted(concerned.length, 'sample')} of its ${of}, ${listed(flagged.map(({ id }) => id))} ${flagged.length === 1 ? 'holds' : 'hold'} less than the usual multiple of that.`
        : `None of the ${counted(concerned.length, 'sample')} of its ${of} holds little enough of it to be in doubt.`
    }`,
    todo: 'Flag these results; their numbers stay as reported.',
    cells: seen.map(({ row }) => cell('results', row, 'value')),
  });
}
