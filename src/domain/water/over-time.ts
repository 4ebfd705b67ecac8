import type { Event } from '../site/schema';
import type { Site } from '../site/site';
import { metres, type Metres } from '../units';
import { headsOf, type GaugedScreen } from './event-heads';
import { flowOf, type Flow } from './flow';

/** Whole days since 1970-01-01 of a day or time as written; null where it is no day. */
export function dayOf(text: string): number | null {
  const at = Date.parse(`${text.slice(0, 10)}T00:00Z`);
  return Number.isNaN(at) ? null : at / 86_400_000;
}

/** An event with levels: its heads and the flow of one zone. */
export type EventFlow = {
  readonly event: Event;
  /** Of its first day; null where that is no day. */
  readonly day: number | null;
  readonly heads: readonly GaugedScreen[];
  readonly flow: Flow;
};

/** The flow of a zone in every event that has levels, earliest first. */
export function flowsOverTime(site: Site, zone: string | null): EventFlow[] {
  const read = new Set(site.waterLevels.map(({ event }) => event));
  return [...site.events.values()]
    .filter(({ id }) => read.has(id))
    .toSorted((a, b) => a.first_day.localeCompare(b.first_day))
    .map((event) => {
      const heads = headsOf(site, event.id);
      return {
        event,
        day: dayOf(event.first_day),
        heads,
        flow: flowOf(site, event.id, zone, heads),
      };
    });
}

/** The heads of a screen over time. */
export type Hydrograph = {
  readonly screen: string;
  readonly location: string;
  /** Earliest first; `counted` false where it is left out of the plane. */
  readonly heads: readonly {
    readonly day: number;
    readonly head: Metres;
    readonly counted: boolean;
  }[];
};

/** Hydrographs of the screens of a zone read in two events or more, by the name of the screen. */
export function hydrographs(flows: readonly EventFlow[]): Hydrograph[] {
  const byScreen = new Map<string, { location: string; heads: Hydrograph['heads'][number][] }>();
  for (const { day, flow } of flows)
    for (const { screen, location, reading, head, leftOut } of flow.gauged) {
      const at = (reading.time === null ? null : dayOf(reading.time)) ?? day;
      if (!head || leftOut === 'read-again' || at === null) continue;
      const graph = byScreen.get(screen.id) ?? { location: location.id, heads: [] };
      graph.heads.push({ day: at, head: head.value, counted: leftOut === null });
      byScreen.set(screen.id, graph);
    }
  return [...byScreen]
    .filter(([, { heads }]) => heads.length > 1)
    .map(([screen, graph]) => ({ screen, ...graph }))
    .sort((a, b) => a.screen.localeCompare(b.screen, 'en', { numeric: true }));
}

/** How far a head has moved since an earlier event. */
export type HeadChange = {
  readonly gauged: GaugedScreen;
  /** Now less then: positive a rise. */
  readonly change: Metres;
  /** The mark it is read from is another one than then. */
  readonly markChanged: boolean;
};

/** Heads now against those of an earlier event, where both are known. */
export function changesSince(
  now: readonly GaugedScreen[],
  then: readonly GaugedScreen[],
): HeadChange[] {
  const before = new Map(
    then.filter(({ leftOut }) => leftOut !== 'read-again').map((one) => [one.screen.id, one]),
  );
  return now.flatMap((gauged) => {
    const old = before.get(gauged.screen.id);
    if (!gauged.head || !old?.head || gauged.leftOut === 'read-again') return [];
    return [
      {
        gauged,
        change: metres(gauged.head.value - old.head.value),
        markChanged: gauged.measuringPoint?.id !== old.measuringPoint?.id,
      },
    ];
  });
}
