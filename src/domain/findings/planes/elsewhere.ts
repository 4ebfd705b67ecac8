import type { Site } from '../../site/site';
import type { GaugedScreen } from '../../water/event-heads';
import type { Flow } from '../../water/flow';
import { offTheOthers, type OffPlane } from '../../water/off-plane';
import { flowAt, gaugedEvents } from '../history';
import { misfitOf } from './misfit';

/** How far a head is off where it should be, up positive, and one standard error of that: metres. */
export type OffBy = { readonly off: number; readonly error: number };

/** What the other events, read from the same mark, say of a well that is off. Events by id, earliest first. */
export type Elsewhere = {
  /** Off by as much: the mark. */
  readonly off: readonly string[];
  /** Of these, where the reading counts. */
  readonly counts: readonly string[];
  /** On the plane of the others, though so large an error would show: the reading. */
  readonly fits: readonly string[];
};

const NOTHING: Elsewhere = { off: [], counts: [], fits: [] };

/** Within so many standard errors two differences are alike; one so many from nothing shows. A judgement, no source. */
const ALIKE = 3;
const SHOWS = 8;

/** Wells of a flow that its heads name as off, by screen. */
export function namedIn(site: Site, flow: Flow): readonly string[] {
  const misfit = misfitOf(site, flow);
  return misfit.kind === 'named' ? misfit.outliers.map(({ point }) => point.id) : [];
}

/** Events looked at, those nearest to the one in question: the mark of years ago says less of it. */
const MOST_EVENTS = 12;

/** Other gauged events, the nearest first. */
function nearestEvents(site: Site, event: string): readonly string[] {
  const all = gaugedEvents(site);
  const here = all.indexOf(event);
  return all
    .map((id, i) => ({ id, apart: Math.abs(i - here) }))
    .filter(({ apart }) => apart > 0)
    .toSorted((a, b) => a.apart - b.apart)
    .slice(0, MOST_EVENTS)
    .map(({ id }) => id);
}

/** How far a well is off the plane of those that are not named as off themselves; null where that can't be told. */
export const offTheSound = (site: Site, flow: Flow, one: GaugedScreen): OffPlane | null =>
  // Heads that lie on one plane name no well that matters here, and asking takes long.
  offTheOthers(site, flow, one, flow.isPlane === false ? namedIn(site, flow) : []);

/**
 * The same well, read from the same mark, at the other events: off by as much
 * too, or fitting there. Each event is judged by its own wells that fit.
 */
export function elsewhere(
  site: Site,
  flow: Flow,
  one: GaugedScreen,
  { off, error }: OffBy,
): Elsewhere {
  const mark = one.measuringPoint?.id;
  if (mark === undefined || Math.abs(off) < SHOWS * error) return NOTHING;
  const near = new Set(nearestEvents(site, flow.event));
  const seen = gaugedEvents(site).flatMap((event) => {
    if (!near.has(event)) return [];
    const then = flowAt(site, event, flow.zone);
    const there = then.gauged.find(
      ({ screen, measuringPoint, leftOut }) =>
        screen.id === one.screen.id &&
        measuringPoint?.id === mark &&
        (leftOut === null || leftOut === 'excluded' || leftOut === 'marked-not-used'),
    );
    const now = there ? offTheSound(site, then, there) : null;
    if (!there || !now || then.plane?.lackOfFit === null) return [];
    const unsure = Math.hypot(now.error, error);
    if (Math.abs(off) < SHOWS * unsure) return [];
    const isOff = Math.abs(now.off - off) <= ALIKE * unsure;
    const fits = !isOff && Math.abs(now.off) <= ALIKE * now.error;
    return [{ event, isOff, fits, counts: there.leftOut === null }];
  });
  const those = (which: (of: (typeof seen)[number]) => boolean) =>
    seen.filter(which).map(({ event }) => event);
  return {
    off: those(({ isOff }) => isOff),
    counts: those(({ isOff, counts }) => isOff && counts),
    fits: those(({ fits }) => fits),
  };
}

/** Other events in which a reading could be left out for the same mark; none where it is not off there. */
export function offToo(site: Site, flow: Flow, one: GaugedScreen): readonly string[] {
  const off = offTheSound(site, flow, one);
  return off ? elsewhere(site, flow, one, off).counts : [];
}
