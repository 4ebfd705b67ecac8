/**
 * Undo as a pile of whole values. Values are immutable and share what has not
 * changed, so keeping every past one costs little and undo is a swap of
 * references: no edit has to know how to reverse itself.
 */
export type Step<T> = { readonly label: string; readonly value: T };

export type History<T> = {
  readonly past: readonly Step<T>[];
  readonly now: Step<T>;
  readonly future: readonly Step<T>[];
};

const DEPTH = 200;

export const begin = <T>(value: T): History<T> => ({
  past: [],
  now: { label: 'Open', value },
  future: [],
});

export const perform = <T>(history: History<T>, label: string, value: T): History<T> => ({
  past: [...history.past, history.now].slice(-DEPTH),
  now: { label, value },
  future: [],
});

export function undo<T>(history: History<T>): History<T> {
  const { past, now, future } = history;
  const before = past.at(-1);
  return before ? { past: past.slice(0, -1), now: before, future: [now, ...future] } : history;
}

export function redo<T>(history: History<T>): History<T> {
  const { past, now, future } = history;
  const [next, ...later] = future;
  return next ? { past: [...past, now], now: next, future: later } : history;
}
