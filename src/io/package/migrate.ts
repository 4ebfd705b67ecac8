import type { Files } from './files';

/**
 * One step of a thing in format n to the same thing in format n + 1. Steps are
 * never changed once released: a site saved years ago walks through all of them.
 */
export type Steps<T> = ReadonlyMap<number, (older: T) => T>;

/** A site's folder as it was opened. */
export type OpenedFolder = {
  readonly descriptor: Readonly<Record<string, unknown>>;
  readonly files: Files;
};

/** Steps of a folder or zip, by the format they start from. Format 1 is the first. */
export const FOLDER_STEPS: Steps<OpenedFolder> = new Map();

/** A thing brought from its format to another; null where a step is lacking. */
export function migrated<T>(given: T, format: number, to: number, steps: Steps<T>): T | null {
  let now = given;
  for (let at = format; at < to; at++) {
    const step = steps.get(at);
    if (!step) return null;
    now = step(now);
  }
  return format <= to ? now : null;
}
