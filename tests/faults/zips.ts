/** Zips cut short and zips with a byte changed: refused in words, or the same files. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { openZip, zipOf, type Files } from '../../src/io/package/files';

export type ZipTally = {
  readonly tried: number;
  readonly refused: number;
  /** Opened as the same files: what was changed says nothing of them, such as a date. */
  readonly same: number;
  /** Opened as other files than were packed, or crashed. */
  readonly faults: readonly string[];
};

const ROOT = new URL('../../', import.meta.url).pathname;

/** The files of a folder of the project. */
export function filesIn(folder: string): Files {
  const place = join(ROOT, folder);
  const names = (readdirSync(place, { recursive: true }) as string[]).toSorted();
  return new Map(
    names
      .filter((name) => statSync(join(place, name)).isFile())
      .map((name) => [name.replaceAll('\\', '/'), new Uint8Array(readFileSync(join(place, name)))]),
  );
}

const isSame = (one: Files, other: Files) =>
  one.size === other.size &&
  [...one].every(([path, bytes]) => {
    const there = other.get(path);
    return there !== undefined && Buffer.from(bytes).equals(Buffer.from(there));
  });

function openAll(files: Files, zips: Iterable<readonly [string, Uint8Array]>): ZipTally {
  let [tried, refused, same] = [0, 0, 0];
  const faults: string[] = [];
  for (const [what, bytes] of zips) {
    tried++;
    try {
      const opened = openZip(bytes);
      if (!opened.ok) refused++;
      else if (isSame(files, opened.value)) same++;
      else faults.push(`${what}: opened as other files`);
    } catch (error) {
      faults.push(`${what}: ${String(error)}`);
    }
  }
  return { tried, refused, same, faults };
}

/** A site's zip cut short at every so many bytes. */
export function cutShort(files: Files, every = 1_024): ZipTally {
  const zip = zipOf(files);
  return openAll(
    files,
    (function* () {
      for (let at = 0; at < zip.length; at += every)
        yield [`cut at ${at}`, zip.slice(0, at)] as const;
    })(),
  );
}

/** A site's zip with one byte changed in every so many, as a failing disk or a bad line leaves it. */
export function oneByteChanged(files: Files, every = 1_024): ZipTally {
  const zip = zipOf(files);
  return openAll(
    files,
    (function* () {
      for (let at = 0; at < zip.length; at += every) {
        const place = (at * 2_654_435_761) % zip.length;
        const changed = zip.slice();
        changed[place] = (changed[place] ?? 0) ^ (1 + (at % 255));
        yield [`byte ${place} changed`, changed] as const;
      }
    })(),
  );
}
