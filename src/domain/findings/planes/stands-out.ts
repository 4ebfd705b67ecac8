import { cell } from '../../site/cite';
import type { Site } from '../../site/site';
import { fixed } from '../../show';
import type { FlowPoint } from '../../water/flow-points';
import { flowPoints } from '../../water/flow-points';
import { leaveOneOut } from '../../water/leave-one-out';
import { fitPlane } from '../../water/plane';
import type { Flow } from '../../water/flow';
import type { Examined, Finding, Rule } from '../finding';
import { flowAt, gaugedEvents } from '../history';
import { aboveOrBelow, chance, finding, listed, said } from '../words';
import { against } from './exchange';
import { likelyError } from './likely-error';
import { HARDLY_BY_CHANCE, misfitOf, type Outlier } from './misfit';

/** A head that does not fit the others, with the slip of the pen that would explain it. */
export const standsOut: Rule = ({ site, event, flows }) =>
  flows.flatMap((flow) => {
    const misfit = misfitOf(site, flow);
    return misfit.kind === 'named'
      ? misfit.outliers.map((outlier) =>
          outlierFinding(site, event, flow, outlier, misfit.outliers.length),
        )
      : [];
  });

function outlierFinding(
  site: Site,
  event: Examined['event'],
  flow: Flow,
  { point, others, off, error, studentised, probability, mends }: Outlier,
  named: number,
): Finding {
  const { gauged, id, head } = point;
  const slip = likelyError(site, gauged, off, error);
  const elsewhere = alsoOff(site, flow, point, off, error);
  const nest = flow.fitted.filter((one) => one.gauged.location.id === gauged.location.id).length;
  const size =
    studentised === null ? '' : `externally studentised residual ${fixed(studentised, 1)}, `;
  return finding('residual stands out', id, event, {
    // A mistake, and not a surface that is no plane: it mends the plane, or a slip explains it.
    severity: probability < HARDLY_BY_CHANCE && (mends || slip) ? 'serious' : 'caution',
    who: [gauged.location.id],
    says: [
      `The head in ${id}, ${said(site, head)}, is ${aboveOrBelow(site, off)} the plane of the other ${others} wells (${size}chance ${chance(probability)}).`,
      slip ? `${capital(slip.says)}.` : '',
      turnWithout(site, flow, id),
      elsewhere,
      nest > 1
        ? `It is one of ${nest} screens at ${gauged.location.id}: a vertical gradient may be the reason.`
        : '',
      mends
        ? `Without ${named === 1 ? 'it' : `the ${named} named`} the others lie on one plane to within their errors.`
        : 'Without it the others do not lie on one plane either.',
    ]
      .filter(Boolean)
      .join(' '),
    todo: elsewhere
      ? 'Look up the survey of its mark first; resurvey it, or leave the well out with the reason.'
      : 'Compare its depth and its mark with the field form; correct the cell, or leave the well out with the reason.',
    cells: slip
      ? slip.cells
      : [
          cell('water_levels', gauged.reading, 'depth_to_water'),
          ...(gauged.measuringPoint
            ? [cell('measuring_points', gauged.measuringPoint, 'elevation')]
            : []),
        ],
  });
}

/** Where the arrow goes without it, where it turns by a degree or more. */
function turnWithout(site: Site, flow: Flow, id: string): string {
  const { points } = flowPoints(site, flow.gauged);
  const left = leaveOneOut(points, { weighted: true, confidence: site.settings.confidence });
  const shift = left.ok ? left.value.wells.find((well) => well.id === id)?.shift : null;
  return shift && Math.abs(shift) >= 1
    ? `Without it the direction turns ${fixed(Math.abs(shift), 0)}° ${shift > 0 ? 'clockwise' : 'counter-clockwise'}.`
    : '';
}

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

/** The same well off by the same amount at other events, read from the same mark: the mark, not the reading. */
function alsoOff(site: Site, flow: Flow, point: FlowPoint, off: number, error: number): string {
  const mark = point.gauged.measuringPoint?.id;
  const alike = gaugedEvents(site).filter((event) => {
    if (event === flow.event) return false;
    const points = flowPoints(site, flowAt(site, event, flow.zone).gauged).points;
    const there = points.find(({ id }) => id === point.id);
    if (!there || there.gauged.measuringPoint?.id !== mark) return false;
    const others = fitPlane(
      points.filter((other) => other !== there),
      { weighted: true },
    );
    if (!others.ok || others.value.lackOfFit === null) return false;
    const now = against(others.value, there);
    const unsure = Math.hypot(now.error, error);
    return Math.abs(now.off - off) <= 3 * unsure && Math.abs(off) >= 8 * unsure;
  });
  return alike.length > 0
    ? `It is off by as much in ${listed(alike)}: the mark, then, and not the reading.`
    : '';
}
