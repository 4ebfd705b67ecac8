import type { Decision } from './site/schema';
import type { Site } from './site/site';

/** A remark pinned to a number, and what was answered, in the order they were written. */
export type Thread = {
  /** What the number is: "Horizontal gradient". */
  readonly number: string;
  readonly comment: Decision;
  readonly answers: readonly Decision[];
};

const PINNED = 'number: ';

/** How a comment names a number: by the title of its work and the event shown. */
export const numberName = (title: string, event: string | null): string =>
  `${PINNED}${title}${event === null ? '' : ` @ ${event}`}`;

const threads = new WeakMap<readonly Decision[], ReadonlyMap<string, Thread>>();

function threadsOf({ decisions }: Site): ReadonlyMap<string, Thread> {
  const before = threads.get(decisions);
  if (before) return before;
  const made = new Map<string, Thread>();
  for (const decision of decisions) {
    const { what, on } = decision;
    if (what !== 'comment' || !on.startsWith(PINNED)) continue;
    const thread = made.get(on);
    made.set(
      on,
      thread
        ? { ...thread, answers: [...thread.answers, decision] }
        : { number: on.slice(PINNED.length).replace(/ @ .*$/, ''), comment: decision, answers: [] },
    );
  }
  threads.set(decisions, made);
  return made;
}

/** What was said of a number; null while nobody said anything. */
export const threadOn = (site: Site, name: string): Thread | null =>
  threadsOf(site).get(name) ?? null;

/** Everything said of numbers of an event, in the order it was begun. */
export const threadsOn = (site: Site, event: string): Thread[] =>
  [...threadsOf(site)].flatMap(([on, thread]) => (on.endsWith(` @ ${event}`) ? [thread] : []));
