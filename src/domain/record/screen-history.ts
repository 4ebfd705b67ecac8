import { headsAt } from '../findings/history';
import { timeSaid } from '../findings/words';
import type { Event } from '../site/schema';
import type { Site } from '../site/site';
import type { Metres } from '../units';
import type { GaugedScreen } from '../water/event-heads';
import { purgeOf } from './purge';

/** One reading of a screen, with what was read while it was purged in the same event. */
export type ScreenReading = {
  readonly event: Event | undefined;
  readonly gauged: GaugedScreen;
  /** Depths to water at the first and last reading of the purging; null where none was written. */
  readonly purged: { readonly first: Metres; readonly last: Metres } | null;
};

/** Every reading of a screen, the latest event first; of one event in the order of the table. */
export function screenHistory(site: Site, screen: string): readonly ScreenReading[] {
  const events = new Set(
    site.waterLevels.flatMap((reading) => (reading.screen === screen ? [reading.event] : [])),
  );
  const dayOf = (event: string) => site.events.get(event)?.first_day ?? '';
  return [...events]
    .toSorted((a, b) => dayOf(b).localeCompare(dayOf(a)))
    .flatMap((event) => {
      const depths = purgeOf(site, screen, event).flatMap((row) => row.depth_to_water ?? []);
      const [first, last] = [depths[0]?.value, depths.at(-1)?.value];
      const purged = first === undefined || last === undefined ? null : { first, last };
      return headsAt(site, event)
        .filter((one) => one.screen.id === screen)
        .map((gauged) => ({ event: site.events.get(event), gauged, purged }));
    });
}

/** When, by whom and from which mark it was read, and the remark written: "2026-09-22 09:01, T.M., from MW-6-MP1". */
export function readWords({ reading, measuringPoint }: GaugedScreen): string {
  const parts = [
    reading.time && timeSaid(reading.time),
    reading.read_by,
    measuringPoint && `from ${measuringPoint.id}`,
    reading.status === 'static' ? null : reading.status,
    reading.note,
  ];
  return parts.filter(Boolean).join(', ');
}
