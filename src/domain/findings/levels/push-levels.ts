import { cell } from '../../site/cite';
import type { Site } from '../../site/site';
import { direction } from '../../show';
import type { GaugedScreen } from '../../water/event-heads';
import { flowOf, type Flow } from '../../water/flow';
import type { Finding, Rule } from '../finding';
import { counted, finding, listed, locationsOf } from '../words';

/** Levels of temporary push points: left out of the plane, with what they would do to it; or counted. */
export const pushLevels: Rule = ({ site, event, heads, flows }) =>
  flows.flatMap((flow): Finding[] => {
    const push = heads.filter(
      (one) =>
        one.class === 'push' &&
        one.screen.zone === flow.zone &&
        one.head !== null &&
        one.leftOut !== 'read-again',
    );
    const left = push.filter(({ leftOut }) => leftOut !== null);
    const counts = push.filter(({ leftOut }) => leftOut === null);
    return [
      ...(left.length > 0 && event !== null ? [leftOutFinding(site, event, flow, left)] : []),
      ...counts.map((one) =>
        finding('temporary push point counts', one.screen.id, event, {
          severity: 'caution',
          who: [one.location.id],
          says: `The level of ${one.screen.id}, a temporary push point, counts in the plane${one.because === null ? ', without a reason' : `: ${one.because}`}.`,
          todo: 'Make sure that recovery was shown and that the stick-up was read again after retraction.',
          cells: [cell('water_levels', one.reading, 'depth_to_water')],
        }),
      ),
    ];
  });

function leftOutFinding(site: Site, event: string, flow: Flow, left: readonly GaugedScreen[]) {
  const unsaid = left.filter(({ reading }) => reading.status === 'not known').length;
  const moving = left.filter(({ reading }) => reading.status !== 'static').length - unsaid;
  const recovering =
    (moving === 0 ? '' : `, ${moving} of them not at rest`) +
    (unsaid === 0 ? '' : `, of ${unsaid} it is not known whether they were at rest`);
  return finding('temporary push levels', flow.zone ?? 'no zone', event, {
    severity: 'note',
    who: locationsOf(left),
    says: `${counted(left.length, 'level')} of temporary push points in ${flow.zone ?? 'no zone'} ${left.length === 1 ? 'is' : 'are'} posted but left out of the plane${recovering} (${listed(left.map(({ screen }) => screen.id))}).${withThem(site, event, flow, left)}`,
    todo: 'Include those whose recovery is shown, each with the reason, and compare the planes.',
    cells: left.map(({ reading }) => cell('water_levels', reading, 'status')),
  });
}

/** What the direction would be with the static ones in. */
function withThem(site: Site, event: string, flow: Flow, left: readonly GaugedScreen[]): string {
  const include = new Set(left.filter(({ leftOut }) => leftOut === 'push-point'));
  if (include.size === 0) return '';
  const heads = flow.gauged.map((one) => (include.has(one) ? { ...one, leftOut: null } : one));
  const other = flowOf(site, event, flow.zone, heads).azimuthGrid;
  const now = flow.azimuthGrid;
  const way = (of: typeof now) => (of === null ? 'not resolved' : direction(of.value));
  const isStatic = [...include].every(({ reading }) => reading.status === 'static');
  return ` With the ${include.size} ${isStatic ? 'static' : 'that may have been at rest'}${isStatic ? (include.size === 1 ? ' one' : ' ones') : ''} the direction would be ${way(other)}; without them it is ${way(now)} (grid).`;
}
