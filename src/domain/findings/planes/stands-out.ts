import { fixed } from '../../show';
import type { Site } from '../../site/site';
import type { Flow } from '../../water/flow';
import type { Examined, Finding, Rule } from '../finding';
import { aboveOrBelow, chance, finding, said } from '../words';
import { evidenceOn, evidenceTodo, toLeaveOut } from './evidence';
import { HARDLY_BY_CHANCE, misfitOf, type Outlier } from './misfit';
import { withoutWords } from './with-and-without';

/** A head that does not fit the others, with what else speaks to it. */
export const standsOut: Rule = ({ site, event, flows }) =>
  flows.flatMap((flow) => {
    const misfit = misfitOf(site, flow);
    if (misfit.kind !== 'named') return [];
    const named = misfit.outliers.map(({ point }) => point.id);
    const turned = withoutWords(site, flow, named);
    return misfit.outliers.map((one) => outlierFinding(site, event, flow, one, named, turned));
  });

function outlierFinding(
  site: Site,
  event: Examined['event'],
  flow: Flow,
  { point, others, off, error, studentised, probability, mends }: Outlier,
  named: readonly string[],
  turned: string,
): Finding {
  const { gauged, id, head } = point;
  const evidence = evidenceOn(site, flow, gauged, { off, error });
  const nest = flow.fitted.filter((one) => one.gauged.location.id === gauged.location.id).length;
  const size =
    studentised === null ? '' : `externally studentised residual ${fixed(studentised, 1)}, `;
  return finding('residual stands out', id, event, {
    // A mistake, and not a surface that is no plane: it mends the plane, or a slip explains it.
    severity: probability < HARDLY_BY_CHANCE && (mends || evidence.isSlip) ? 'serious' : 'caution',
    who: [gauged.location.id],
    says: [
      `The head in ${id}, ${said(site, head)}, is ${aboveOrBelow(site, off)} the plane of the other ${others} wells (${size}chance ${chance(probability)}).`,
      ...evidence.says,
      nest > 1
        ? `It is one of ${nest} screens at ${gauged.location.id}: a vertical gradient may be the reason.`
        : '',
      turned,
      mends
        ? `Without ${named.length === 1 ? 'it' : `the ${named.length} named`} the others lie on one plane to within their errors.`
        : 'Without it the others do not lie on one plane either.',
    ]
      .filter(Boolean)
      .join(' '),
    todo: evidenceTodo(evidence),
    cells: evidence.cells,
    leaveOut: toLeaveOut(gauged, evidence),
  });
}
