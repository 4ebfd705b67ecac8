import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { openSite, type OpenedSite } from '../../src/io/open-site';
import type { Files } from '../../src/io/package/files';

/** The top of the project. */
export const TOP = resolve(import.meta.dirname, '../..');

/** The tables and descriptor of a folder under the top of the project. */
export const filesIn = (folder: string): Files =>
  new Map(
    readdirSync(join(TOP, folder))
      .filter((name) => /\.csv$|^datapackage\.json$/.test(name))
      .map((name) => [name, readFileSync(join(TOP, folder, name))]),
  );

/** A site opened from a folder; the test fails where it can't be. */
export function openFolder(folder: string, files = filesIn(folder)): OpenedSite {
  const opened = openSite(files);
  if (!opened.ok) throw new Error(`${folder}: expected ${opened.problem.expected}`);
  return opened.value;
}
