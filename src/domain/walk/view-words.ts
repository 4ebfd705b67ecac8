import { ASKED_AT_FIRST, type Asked } from '../lab/asked-results';
import type { Shown } from '../site/shown';
import type { Site } from '../site/site';
import { days, type StopView } from './stop';

/** "Autumn gauging, low water, 2026-09-22 to 2026-09-23"; "no event" where there is none. */
export function eventWords(site: Site, id: string | null): string {
  const event = id === null ? undefined : site.events.get(id);
  if (!event) return id ?? 'no event';
  return `${event.title ?? event.id}, ${days(event.first_day, event.last_day)}`;
}

/** Which results are shown: "Benzene", "all analytes", "aromatics, of every event". */
export function resultsWords(
  { analyte }: Pick<Shown, 'analyte'>,
  asked: Asked = ASKED_AT_FIRST,
): string {
  return [
    analyte ?? asked.group ?? 'all analytes',
    ...(asked.allEvents ? ['of every event'] : []),
    ...(asked.zone === null ? [] : [`${asked.zone} zone alone`]),
    ...(asked.matrix === null ? [] : [`${asked.matrix} alone`]),
    ...(asked.samples === 'all samples' ? ['duplicates and blanks too'] : []),
  ].join(', ');
}

/** What a view shows, in words: event, zone, what is drawn, and of which results. */
export function viewWords(
  site: Site,
  { shown, asked, section, sides, contours }: Omit<StopView, 'points' | 'window'>,
): string {
  return [
    eventWords(site, shown.event),
    ...(shown.zone === null ? [] : [`${shown.zone} zone`]),
    ...(shown.heads ? ['heads'] : []),
    ...(shown.arrow ? ['direction of flow'] : []),
    ...(contours ? ['contours'] : []),
    ...(shown.verdicts && shown.levelSet !== null
      ? [`results (${resultsWords(shown, asked)}) against ${shown.levelSet}`]
      : []),
    ...(sides ? ['open sides'] : []),
    ...(section ? ['section'] : []),
  ].join('; ');
}
