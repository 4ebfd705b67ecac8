import { cell } from '../../site/cite';
import type { Site } from '../../site/site';
import { chiSquaredAbove } from '../../water/distributions';
import { FEWEST_TO_NAME } from '../../water/leave-one-out';
import type { FlowPoint } from '../../water/flow-points';
import type { Flow } from '../../water/flow';
import type { Finding, Rule } from '../finding';
import { counted, finding, listed, locationsOf, said } from '../words';
import { HARDLY_BY_CHANCE, misfitOf, type Misfit } from './misfit';

/** Heads that lie on no one plane, where no single well can be blamed for it. */
export const notAPlane: Rule = ({ site, event, flows }) =>
  flows.flatMap((flow): Finding[] => {
    const misfit = misfitOf(site, flow);
    const { zone, fitted } = flow;
    if (misfit.kind === 'exchanged') return [exchangeFinding(site, event, misfit)];
    if (misfit.kind === 'cannot-be-named') return [unnamedFinding(site, event, flow, misfit)];
    const named = misfit.kind === 'named' ? misfit.outliers : [];
    if (misfit.kind === 'fits' || named.at(-1)?.mends) return [];
    return [
      finding('not a plane', zone ?? 'all', event, {
        severity: 'caution',
        who: [],
        says: `The ${fitted.length} heads of ${zone ?? 'this event'} do not lie on one plane: they scatter by ${said(site, flow.plane?.s ?? 0)} about it, more than their stated errors make, ${named.length > 0 ? `and would even without ${listed(named.map(({ point }) => point.id))}` : 'and no one well stands out'}.`,
        todo: 'Look at the residuals on the map: draw contours or local arrows, or ask whether the stated errors are too small.',
        cells: [],
      }),
    ];
  });

const depths = (points: readonly FlowPoint[]) =>
  points.map(({ gauged }) => cell('water_levels', gauged.reading, 'depth_to_water'));

const idsOf = (points: readonly FlowPoint[]) => points.map(({ id }) => id);

function unnamedFinding(
  site: Site,
  event: string | null,
  { zone, plane, fitted }: Flow,
  { have, suspects }: Extract<Misfit, { kind: 'cannot-be-named' }>,
): Finding {
  const chance = plane?.lackOfFit ? chiSquaredAbove(plane.lackOfFit, plane.degreesOfFreedom) : 1;
  const all = suspects.length === have || suspects.length === 0;
  const [only] = suspects;
  return finding('misfit without a culprit', zone ?? 'all', event, {
    severity: chance < HARDLY_BY_CHANCE ? 'serious' : 'caution',
    who: locationsOf(all ? fitted.map(({ gauged }) => gauged) : suspects.map((p) => p.gauged)),
    says: [
      `The ${have} heads of ${zone ?? 'this event'} do not lie on one plane to within their errors (scatter ${said(site, plane?.s ?? 0)}).`,
      `With ${counted(have, 'well')} no culprit can be named: ${FEWEST_TO_NAME} are needed.`,
      all
        ? 'Any of them may be wrong, or the surface is curved.'
        : suspects.length === 1 && only
          ? `Only without ${only.id} would the others lie on one: look there first.`
          : `The others would lie on one without ${listed(idsOf(suspects)).replace(' and ', ' or ')}.`,
    ].join(' '),
    todo: 'Check depths and marks against the field forms and the survey; compare the change of each since the last event.',
    cells: depths(suspects),
  });
}

function exchangeFinding(
  site: Site,
  event: string | null,
  { one, other, apart, others }: Extract<Misfit, { kind: 'exchanged' }>,
): Finding {
  return finding('readings exchanged', `${one.id} and ${other.id}`, event, {
    severity: 'serious',
    who: locationsOf([one.gauged, other.gauged]),
    says: `The depths of ${one.id} and ${other.id} seem to stand in each other’s rows: one head is ${said(site, apart)} too high and the other as much too low for the plane of the other ${others} wells, and exchanged they both fit.`,
    todo: 'Compare both with the field form and exchange them if it says so.',
    cells: depths([one, other]),
  });
}
