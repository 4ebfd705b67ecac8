import { readdir, readFile, stat } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import { fail, ok, type Result } from '../domain/result';
import { openZip, type Files } from '../io/package/files';

/** The files of a site on disk, from its folder or its zip; or a sentence why not. */
export async function readFiles(path: string): Promise<Result<Files, string>> {
  try {
    const found = await stat(path);
    if (found.isDirectory()) return ok(await folder(path));
    const zip = openZip(await readFile(path));
    return zip.ok ? zip : fail(`${path}: ${zip.problem}`);
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : error;
    return fail(`${path} could not be read (${String(code)}).`);
  }
}

async function folder(path: string): Promise<Files> {
  const entries = await readdir(path, { recursive: true, withFileTypes: true });
  const files = entries.filter((entry) => entry.isFile() && /\.(csv|json)$/.test(entry.name));
  const read = files.map(async (entry) => {
    const file = join(entry.parentPath, entry.name);
    return [relative(path, file).split(sep).join('/'), await readFile(file)] as const;
  });
  return new Map(await Promise.all(read));
}
