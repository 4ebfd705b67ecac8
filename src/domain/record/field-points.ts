import { groupBy } from '../group';
import type { Attempt, Location, Screen } from '../site/schema';
import type { Site } from '../site/site';

/** What is done at a point, in the order it is done. */
export const STEPS = ['hole', 'interval', 'water', 'sample', 'close'] as const;
export type Step = (typeof STEPS)[number];

/** `missed`: it was never done, and the holes are filled, so it no longer can be. */
export type StepState = 'done' | 'not yet' | 'not needed' | 'missed';

/** A push point as the crew sees it: its holes, its screens, and how far it has got. */
export type FieldPoint = {
  readonly location: Location;
  readonly attempts: readonly Attempt[];
  readonly screens: readonly Screen[];
  readonly steps: Readonly<Record<Step, StepState>>;
  /** The first step that is not done; null when there is none. */
  readonly next: Step | null;
  /** Given up before anything was done there. */
  readonly isDropped: boolean;
};

/** Whether a hole is filled, or why not is written down. */
export const isClosed = ({ decommission_day, decommission_material, open_reason }: Attempt) =>
  (decommission_day !== null && decommission_material !== null) || open_reason !== null;

/** Holes of a point that are neither filled nor excused. */
export const openHoles = ({ attempts }: Pick<FieldPoint, 'attempts'>): readonly Attempt[] =>
  attempts.filter((attempt) => !isClosed(attempt));

/**
 * The push points of a site in the order of its table. A point where every hole
 * ended short needs no interval, water or sample, but each of its holes needs
 * closing; one given up needs nothing.
 */
export function fieldPoints(site: Site): readonly FieldPoint[] {
  const screensAt = groupBy(site.screens.values(), ({ location }) => location);
  const attemptsAt = groupBy(site.attempts, ({ location }) => location);
  const gauged = new Set(site.waterLevels.map(({ screen }) => screen));
  const sampled = new Set([...site.samples.values()].map(({ screen }) => screen));
  return [...site.locations.values()]
    .filter(({ kind }) => kind === 'direct push')
    .map((location) => {
      const attempts = attemptsAt.get(location.id) ?? [];
      const screens = screensAt.get(location.id) ?? [];
      const short = attempts.length > 0 && attempts.every(({ outcome }) => outcome !== 'reached');
      const filled =
        attempts.length > 0 && attempts.every((hole) => isClosed(hole) && !hole.open_reason);
      const open = screens.filter(({ tip_depth, exposed_length }) => tip_depth && exposed_length);
      const isDropped = location.status === 'dropped';
      const state = (done: boolean): StepState =>
        done ? 'done' : short || isDropped ? 'not needed' : filled ? 'missed' : 'not yet';
      const todo: StepState = isDropped ? 'not needed' : 'not yet';
      const steps: Record<Step, StepState> = {
        hole: attempts.length > 0 ? 'done' : todo,
        interval: state(open.length > 0),
        water: state(screens.some(({ id }) => gauged.has(id))),
        sample: state(screens.some(({ id }) => sampled.has(id))),
        close: attempts.length > 0 && attempts.every(isClosed) ? 'done' : todo,
      };
      const next = STEPS.find((step) => steps[step] === 'not yet') ?? null;
      return { location, attempts, screens, steps, next, isDropped };
    });
}

/** The point to go to after another: the next in order with something to do, round to the first. */
export function nextPoint(points: readonly FieldPoint[], after: string | null): FieldPoint | null {
  const at = points.findIndex(({ location }) => location.id === after);
  const turned = [...points.slice(at + 1), ...points.slice(0, at + 1)];
  return turned.find(({ next, location }) => next !== null && location.id !== after) ?? null;
}

export type Progress = Readonly<Record<Step, number>> & {
  /** Without those given up. */
  readonly points: number;
  readonly dropped: number;
};

/** How many points have each step behind them, a step that is not needed counting as done; those given up are counted apart. */
export function progressOf(all: readonly FieldPoint[]): Progress {
  const points = all.filter(({ isDropped }) => !isDropped);
  const done = (step: Step) =>
    points.filter(({ steps }) => ['done', 'not needed'].includes(steps[step])).length;
  return {
    points: points.length,
    dropped: all.length - points.length,
    hole: done('hole'),
    interval: done('interval'),
    water: done('water'),
    sample: done('sample'),
    close: done('close'),
  };
}
