import type { DataPackage } from '../../domain/site/data-package';
import { picturesOf } from '../../domain/site/pictures';
import type { Problem } from '../../domain/site/problem';
import { ok, type Result } from '../../domain/result';
import { bytesOf, type Files } from '../package/files';
import { openPackage } from '../package/open';
import { savePackage } from '../package/save';

/** A site with all of its folder. */
export type WholeSite = {
  readonly package: DataPackage;
  /** The folder's other files, untouched: README, images, and the journal as it was opened. */
  readonly carried: Files;
  /** Lines to be added at the end of the journal, oldest first. */
  readonly lines: readonly string[];
};

/**
 * A picture brought in here, by the digest in its name. One the descriptor no
 * longer names was undone or taken away, and is not given out with the site.
 */
const BROUGHT = /^images\/.*\.[0-9a-f]{12}\.(?:png|jpg|webp)$/;

/** A folder with nothing beside its tables. */
export const NO_FILES: Files = new Map();

const JOURNAL = 'journal.jsonl';

/** A site and the rest of its folder from the folder's files. */
export function openWhole(
  files: Files,
): Result<{ readonly site: WholeSite; readonly problems: readonly Problem[] }, Problem> {
  const opened = openPackage(files);
  if (!opened.ok) return opened;
  const { package: given, problems } = opened.value;
  const ours = new Set(['datapackage.json', ...Object.values(given.paths)]);
  const carried = new Map([...files].filter(([path]) => !ours.has(path)));
  return ok({ site: { package: given, carried, lines: [] }, problems });
}

/**
 * The files of a site's folder: the descriptor, the tables in the order of the
 * schema, the journal, then the rest by name. The same site gives the same
 * bytes in the same order.
 */
export function filesOf({ package: given, carried, lines }: WholeSite): Files {
  const files = new Map(savePackage(given));
  const before = carried.get(JOURNAL);
  const journal = journalOf(before ?? new Uint8Array(), lines);
  if (before || lines.length > 0) files.set(JOURNAL, journal);
  const named = new Set(picturesOf(given.descriptor).map(({ path }) => path));
  const rest = [...carried].filter(
    ([path]) => !files.has(path) && (named.has(path) || !BROUGHT.test(path)),
  );
  for (const [path, bytes] of rest.sort(([a], [b]) => (a < b ? -1 : 1))) files.set(path, bytes);
  return files;
}

const LINE_FEED = 10;

/** The journal with lines added: what was there stays as it was, to the byte. */
function journalOf(before: Uint8Array, lines: readonly string[]): Uint8Array {
  if (lines.length === 0) return before;
  const isEnded = before.length === 0 || before.at(-1) === LINE_FEED;
  const added = bytesOf(`${isEnded ? '' : '\n'}${lines.join('\n')}\n`);
  const whole = new Uint8Array(before.length + added.length);
  whole.set(before);
  whole.set(added, before.length);
  return whole;
}
