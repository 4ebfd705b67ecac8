import { zipSync, strFromU8, strToU8 } from 'fflate';
import { fail, ok, type Result } from '../../domain/result';
import { openBoundedZip } from '../formats/bounded-zip';

/** Files of a folder or zip by their path in it, with forward slashes. */
export type Files = ReadonlyMap<string, Uint8Array>;

/** The files with one more, or one in place of another of its path. */
export const withFile = (files: Files, path: string, bytes: Uint8Array): Files =>
  new Map([...files, [path, bytes]]);

/** A site this large opened out is refused: it would not fit in a browser. */
export const MOST_BYTES = 2 ** 30;
export const MOST_FILES = 10_000;

/** The files of a zip; a sentence where it is not one, is damaged, or is not safe to open. */
export function openZip(bytes: Uint8Array): Result<Files, string> {
  const opened = openBoundedZip(bytes, { bytes: MOST_BYTES, files: MOST_FILES });
  return opened.ok
    ? ok(withoutCommonFolder(opened.value))
    : fail(`This zip is not opened: ${opened.problem}.`);
}

/** A zip of a folder holds the folder: its files are taken from where the descriptor is. */
function withoutCommonFolder(files: Files): Files {
  const descriptor = [...files.keys()]
    .filter((path) => path === 'datapackage.json' || path.endsWith('/datapackage.json'))
    .sort((a, b) => a.length - b.length)[0];
  const folder = descriptor?.slice(0, -'datapackage.json'.length) ?? '';
  if (folder === '') return files;
  return new Map(
    [...files]
      .filter(([path]) => path.startsWith(folder))
      .map(([path, bytes]) => [path.slice(folder.length), bytes]),
  );
}

/** All entries carry one date, so that the same files make the same zip. */
const ENTRY_DATE = '1980-01-01T00:00:00';

/** A zip of the files, the same bytes for the same files in the same order. */
export const zipOf = (files: Files): Uint8Array =>
  zipSync(Object.fromEntries(files), { level: 6, mtime: ENTRY_DATE });

export const textOf = (bytes: Uint8Array) => strFromU8(bytes);
export const bytesOf = (text: string) => strToU8(text);
