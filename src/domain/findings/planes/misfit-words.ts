import { length, usualDecimals } from '../../show';
import type { Site } from '../../site/site';
import { metres } from '../../units';
import type { Flow } from '../../water/flow';
import { culpritWords, driverWords } from '../../water/influence-words';
import type { LeaveOneOut } from '../../water/leave-one-out';
import { chance, listed } from '../words';
import { misfitOf, type Misfit, type Outlier } from './misfit';
import { withoutWords } from './with-and-without';

/**
 * What leaving wells out says of a plane, in sentences: first what the findings
 * say, which look for two wells that hide each other too, then which one well
 * turns the direction most.
 */
export function influenceWords(site: Site, flow: Flow, left: LeaveOneOut): string {
  return `${misfitWords(site, flow, misfitOf(site, flow), left)} ${driverWords(left)}`;
}

function misfitWords(
  site: Site,
  flow: Flow,
  misfit: Misfit,
  { culprit }: Pick<LeaveOneOut, 'culprit'>,
): string {
  switch (misfit.kind) {
    case 'fits':
      return culpritWords(culprit, site.settings.verticalUnit);
    case 'exchanged':
      return `The depths of ${misfit.one.id} and ${misfit.other.id} seem to stand in each other’s rows, which leaving out one well does not show: see the findings.`;
    case 'named':
      return namedWords(site, flow, misfit.outliers, culprit.kind === 'none-stands-out');
    case 'cannot-be-named':
      return `The heads do not lie on one plane, and ${culpritWords(culprit, site.settings.verticalUnit).replace('With', 'with')}`;
    case 'not-a-plane':
      return 'The heads do not lie on one plane, and leaving out no one well or pair of wells mends that: see the findings.';
  }
}

function namedWords(
  site: Site,
  flow: Flow,
  outliers: readonly Outlier[],
  areHidden: boolean,
): string {
  const unit = site.settings.verticalUnit;
  const names = outliers.map(({ point }) => point.id);
  const off = outliers.map(({ point, off, others, probability }) => {
    const by = length(metres(Math.abs(off)), unit, usualDecimals(unit) + 1);
    return `${names.length === 1 ? 'it' : point.id} is ${by} ${off < 0 ? 'below' : 'above'} the plane of the other ${others} (chance ${chance(probability)})`;
  });
  return [
    `${listed(names)} ${names.length === 1 ? 'does' : 'do'} not fit the others: ${off.join('; ')}.`,
    areHidden && names.length > 1 ? 'Left out one at a time they hide each other.' : '',
    withoutWords(site, flow, names),
    'See the findings.',
  ]
    .filter(Boolean)
    .join(' ');
}
