import { direction, fixed, gradient, significant } from '../domain/show';
import { headsOf } from '../domain/water/event-heads';
import { flowOf, zonesOf, type Flow } from '../domain/water/flow';
import type { OpenedSite } from '../io/open-site';
import { workText, type Answer } from './answer';
import type { Asked } from './arguments';
import { inColumns } from './columns';

/** Direction and gradient for each event and zone asked for. */
export function flow({ site }: OpenedSite, { event, zone, work, unweighted }: Asked): Answer {
  const events = event === null ? [...site.events.keys()] : [event];
  const flows = events.flatMap((id) => {
    const heads = headsOf(site, id);
    const zones = zone === null ? zonesOf(heads) : [zone];
    return zones.map((name) => flowOf(site, id, name, heads, { weighted: !unweighted }));
  });
  const table = inColumns(
    ['event', 'zone', 'wells', 'gradient', 'grid', 'true', '±', 'R²', 'resolved'],
    flows.map((one) => [
      one.event,
      one.zone ?? '',
      String(one.fitted.length),
      one.gradient ? gradient(one.gradient.value) : '',
      one.azimuthGrid ? direction(one.azimuthGrid.value) : '',
      one.azimuthTrue ? direction(one.azimuthTrue.value) : '',
      one.azimuthHalfWidth === null ? '' : `${fixed(one.azimuthHalfWidth, 1)}°`,
      one.rSquared === null ? '' : fixed(one.rSquared, 3),
      one.resolved ? 'yes' : 'no',
    ]),
  );
  const said = flows.map(
    (one) =>
      `${one.event}, ${one.zone ?? 'no zone'}:${one.reason ? ` ${one.reason}` : ''}\n${one.findings.map((f) => `  ${f}`).join('\n')}`,
  );
  const works = work
    ? flows.flatMap(({ gradient: slope, azimuthGrid, azimuthTrue }) =>
        [slope, azimuthGrid, azimuthTrue].flatMap((w) => (w ? [workText(site, w.work)] : [])),
      )
    : [];
  const percent = significant(site.settings.confidence * 100, 3);
  return {
    text: [
      table,
      `Gradients have no unit. Directions are of flow, clockwise from grid and from true north; ± is at ${percent} %.`,
      ...said,
      ...works,
    ].join('\n\n'),
    json: flows.map(flowJson),
  };
}

/** A flow as JSON; directions in degrees, null where they cannot be told. */
const flowJson = (one: Flow) => ({
  event: one.event,
  zone: one.zone,
  wells: one.fitted.length,
  screens: one.fitted.map(({ gauged }) => gauged.screen.id),
  gradient: one.gradient?.value ?? null,
  gradientStandardError: one.gradientStandardError,
  azimuthGrid: one.azimuthGrid?.value ?? null,
  azimuthTrue: one.azimuthTrue?.value ?? null,
  convergence: one.convergence,
  azimuthStandardError: one.azimuthStandardError,
  azimuthHalfWidth: one.azimuthHalfWidth,
  rSquared: one.rSquared,
  resolved: one.resolved,
  reason: one.reason,
  isPlane: one.isPlane,
  tests: [
    ...(one.confidence?.slopeTests ?? []),
    ...(one.confidence?.lackOfFit ? [one.confidence.lackOfFit] : []),
  ],
  leftOut: one.gauged.flatMap(({ screen, leftOut }) =>
    leftOut === null ? [] : [{ screen: screen.id, reason: leftOut }],
  ),
});
