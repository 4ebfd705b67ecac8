import { fixed, lengthNumber, unitText } from '../domain/show';
import { inUnits } from '../domain/units';
import { headsOf, leftOutWords } from '../domain/water/event-heads';
import type { OpenedSite } from '../io/open-site';
import { workText, type Answer } from './answer';
import type { Asked } from './arguments';
import { inColumns } from './columns';

/** Every screen gauged, event by event. */
export function heads({ site }: OpenedSite, { event, zone, work }: Asked): Answer {
  const unit = site.settings.verticalUnit;
  const events = event === null ? [...site.events.keys()] : [event];
  const all = events.flatMap((id) =>
    headsOf(site, id).filter(({ screen }) => zone === null || screen.zone === zone),
  );
  const json = all.map(
    ({ screen, location, reading, head, sigma, leftOut, because, ...point }) => ({
      event: reading.event,
      zone: screen.zone,
      screen: screen.id,
      location: location.id,
      class: point.class,
      time: reading.time,
      status: reading.status,
      measuringPoint: point.measuringPoint?.id ?? null,
      head: head ? Number(inUnits(head.value, unit).toFixed(6)) : null,
      standardError: Number(inUnits(sigma, unit).toFixed(6)),
      unit,
      counts: leftOut === null,
      reason: leftOut === null ? null : leftOutWords(leftOut),
      because,
    }),
  );
  const table = inColumns(
    ['event', 'zone', 'screen', `head, ${unitText(unit)}`, '±', 'in the plane'],
    all.map(({ reading, screen, head, sigma, leftOut, because }) => [
      reading.event,
      screen.zone ?? '',
      screen.id,
      head ? lengthNumber(head.value, unit, head.work.decimals) : '',
      fixed(inUnits(sigma, unit), 3),
      leftOut === null ? 'yes' : `no: ${leftOutWords(leftOut)}${because ? ` (${because})` : ''}`,
    ]),
  );
  const works = work ? all.flatMap(({ head }) => (head ? [workText(site, head.work)] : [])) : [];
  return { text: [table, ...works].join('\n\n'), json };
}
