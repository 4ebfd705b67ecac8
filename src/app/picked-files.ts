import { fail, ok, type Result } from '../domain/result';
import { openZip, type Files } from '../io/package/files';

export type { Files };

/** Files as a browser gives them: from a folder picker they carry their path in it. */
export async function pickedFiles(picked: readonly File[]): Promise<Result<Files, string>> {
  const [only, ...more] = picked;
  if (only && more.length === 0 && /\.zip$/i.test(only.name))
    return openZip(new Uint8Array(await only.arrayBuffer()));
  const tables = picked.filter(({ name }) => /\.(csv|json)$/i.test(name));
  if (tables.length === 0)
    return fail(
      `Expected a zip, or a folder with datapackage.json and tables as .csv; found ${picked
        .map(({ name }) => name)
        .slice(0, 5)
        .join(', ')}.`,
    );
  // Whatever else is in the folder stays with it: pictures, a README. What is hidden is left alone.
  const carried = picked.filter((file) => !/(?:^|\/)\./.test(inFolder(file)));
  const read = carried.map(
    async (file) => [inFolder(file), new Uint8Array(await file.arrayBuffer())] as const,
  );
  return ok(new Map(await Promise.all(read)));
}

/** The path inside the folder that was picked, without the folder's own name. */
const inFolder = ({ webkitRelativePath, name }: File) =>
  webkitRelativePath.includes('/')
    ? webkitRelativePath.slice(webkitRelativePath.indexOf('/') + 1)
    : name;
