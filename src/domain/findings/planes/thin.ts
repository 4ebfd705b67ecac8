import { cell } from '../../site/cite';
import { direction, significant } from '../../show';
import { flowPoints } from '../../water/flow-points';
import { leaveOneOut, type WellInfluence } from '../../water/leave-one-out';
import { fitPlane, type WellSpread } from '../../water/plane';
import type { Flow } from '../../water/flow';
import type { Finding, Rule } from '../finding';
import { counted, finding } from '../words';

/** Spread across the wells under this share of that along them: nearly in a line. Common practice, no source. */
const THIN = 0.1;

/** Wells nearly in a line: a direction across the line rests on very little. */
export const thinSet: Rule = ({ event, flows }) =>
  flows.flatMap(({ zone, plane, fitted }): Finding[] => {
    if (!plane) return [];
    const few = fitted.length === 3;
    const thin = plane.spread.ratio < THIN;
    if (!few && !thin) return [];
    return [
      finding('thin set of wells', zone ?? 'all', event, {
        severity: thin ? 'caution' : 'note',
        who: thin ? fitted.map(({ gauged }) => gauged.location.id) : [],
        says: thin
          ? `The ${counted(fitted.length, 'well')} of ${zone ?? 'this event'} are nearly in a line: their spread across it is ${significant(100 * plane.spread.ratio, 2)} % of that along it, and the fall across the line is hardly measured.`
          : `Three heads of ${zone ?? 'this event'} make a plane whatever they are: nothing is left to check it by.`,
        todo: thin
          ? 'Add a point off the line before trusting the direction.'
          : 'Add a fourth well, or compare with another event.',
        cells: fitted.map(({ gauged }) => cell('locations', gauged.location, 'easting')),
      }),
    ];
  });

/** A well that decides its own head nearly alone. A judgement, no source. */
const MOST_LEVERAGE = 0.95;

/** Least turn that is worth saying, where no ± is known or it is smaller. */
const TURN = 10; // degrees

/** One well that drives the answer: without it the direction is another, or there is none. */
export const driver: Rule = ({ site, event, flows }) =>
  flows.flatMap((flow): Finding[] => {
    if (!flow.plane || flow.fitted.length < 4) return [];
    const { points } = flowPoints(site, flow.gauged);
    const left = leaveOneOut(points, {
      weighted: true,
      confidence: site.settings.confidence,
    });
    if (!left.ok) return [];
    const { wells, driver: name } = left.value;
    const heavy = wells.find(
      ({ leverage, none }) => none === 'in-a-line' || leverage > MOST_LEVERAGE,
    );
    const turned = wells.find(({ id }) => id === name);
    const enough = Math.max(TURN, 2 * (flow.azimuthHalfWidth ?? 0));
    const one =
      heavy ?? (flow.resolved && Math.abs(turned?.shift ?? 0) > enough ? turned : undefined);
    if (!one) return [];
    const others = fitPlane(
      points.filter(({ id }) => id !== one.id),
      { weighted: true },
    );
    return [driverFinding(event, flow, one, others.ok ? others.value.spread : null)];
  });

function driverFinding(
  event: string | null,
  { zone, plane, fitted }: Flow,
  { id, leverage, shift, without }: WellInfluence,
  others: WellSpread | null,
): Finding {
  const well = fitted.find(({ gauged }) => gauged.screen.id === id)?.gauged;
  const inLine = others === null || others.ratio < THIN;
  const turns = shift !== null && Math.abs(shift) >= 1 && without?.azimuth && plane?.azimuth;
  return finding('one well drives the answer', `${zone ?? 'all'}, ${id}`, event, {
    severity: leverage > MOST_LEVERAGE || inLine ? 'caution' : 'note',
    who: well ? [well.location.id] : [],
    says: [
      `The direction in ${zone ?? 'this event'} hangs on ${id}, which decides ${Math.min(99.9, 100 * leverage).toFixed(leverage > 0.99 ? 1 : 0)} % of its own fitted head: a mistake there would not show in its residual.`,
      inLine
        ? 'Without it the other wells are nearly in a line.'
        : turns && without.azimuth !== null && plane.azimuth !== null
          ? `Without it the plane would fall toward ${direction(without.azimuth)} and not ${direction(plane.azimuth)} (grid).`
          : '',
    ]
      .filter(Boolean)
      .join(' '),
    todo: `Check the depth and the mark of ${id} with care, and put another well on its side.`,
    cells: well ? [cell('water_levels', well.reading, 'depth_to_water')] : [],
  });
}
