import { fail, ok, type Result } from '../../domain/result';
import { MOST_BYTES, MOST_FILES, type Files } from '../package/files';
import { staysInside } from '../package/inside';
import { sha256 } from './digest';

/** SHA-256 of each file by its path, as last read or written. */
export type Digests = Readonly<Record<string, string>>;

/**
 * The files of a folder the person chose, and of the folders in it. Hidden ones
 * (.git, .DS_Store) are left alone: they are neither read nor written.
 */
export async function readFolder(
  folder: FileSystemDirectoryHandle,
): Promise<Result<{ readonly files: Files; readonly digests: Digests }, string>> {
  const files = new Map<string, Uint8Array>();
  let total = 0;
  const refusal = await walk(folder, '', async (path, file) => {
    const { size } = await file.getFile();
    total += size;
    if (total > MOST_BYTES) return 'it holds more than 1 GB';
    if (files.size >= MOST_FILES) return `it holds more than ${MOST_FILES} files`;
    files.set(path, await bytesIn(file));
    return null;
  });
  if (refusal !== null) return fail(`The folder is not opened: ${refusal}.`);
  return ok({ files, digests: await digestsOf(files) });
}

async function walk(
  folder: FileSystemDirectoryHandle,
  inside: string,
  visit: (path: string, file: FileSystemFileHandle) => Promise<string | null>,
): Promise<string | null> {
  for await (const [name, entry] of folder.entries()) {
    if (name.startsWith('.')) continue;
    const path = `${inside}${name}`;
    const refusal =
      entry.kind === 'directory' ? await walk(entry, `${path}/`, visit) : await visit(path, entry);
    if (refusal !== null) return refusal;
  }
  return null;
}

const bytesIn = async (file: FileSystemFileHandle) =>
  new Uint8Array(await (await file.getFile()).arrayBuffer());

/** SHA-256 of each file. */
export async function digestsOf(files: Files): Promise<Digests> {
  const pairs: [string, string][] = [];
  for (const [path, bytes] of files) pairs.push([path, await sha256(bytes)]);
  return Object.fromEntries(pairs);
}

export type FolderProblem =
  /** Files that stand in the folder otherwise than we last read or wrote them. */
  | { readonly kind: 'changed-there'; readonly paths: readonly string[] }
  /** The browser or the disk would not have it, in its own words. */
  | { readonly kind: 'not-written'; readonly said: string };

/** Files to be written, with the digest of each. */
export type ToWrite = { readonly files: Files; readonly digests: Digests };

/**
 * Write the files into a folder, only those that differ, the first of them
 * last: it is the descriptor. What else is in the folder stays. Nothing is
 * written where a file to be replaced was changed by someone else, unless
 * `replace` says to. A file is replaced whole or not at all; one that is new in
 * the folder stays empty if the browser is killed while writing it.
 * @param known  files that are ours to replace: as last read, written, or begun to be written there
 */
export async function writeFolder(
  folder: FileSystemDirectoryHandle,
  wanted: ToWrite,
  known: readonly Digests[],
  replace = false,
): Promise<Result<null, FolderProblem>> {
  try {
    return await write(folder, wanted, known, replace);
  } catch (error) {
    return fail({ kind: 'not-written', said: error instanceof Error ? error.message : '' });
  }
}

async function write(
  folder: FileSystemDirectoryHandle,
  { files, digests }: ToWrite,
  known: readonly Digests[],
  replace: boolean,
): Promise<Result<null, FolderProblem>> {
  const differing: string[] = [];
  const changed: string[] = [];
  for (const path of files.keys()) {
    const there = await existing(folder, path);
    const digest = there === null ? null : await sha256(there);
    if (digest === digests[path]) continue;
    differing.push(path);
    const isOurs = known.some((digests) => digests[path] === digest);
    if (there !== null && there.length > 0 && !isOurs) changed.push(path);
  }
  if (changed.length > 0 && !replace) return fail({ kind: 'changed-there', paths: changed });
  for (const path of differing.toReversed()) {
    const file = await fileAt(folder, path, true);
    const bytes = files.get(path);
    if (!file || !bytes) continue;
    const writing = await file.createWritable();
    await writing.write(bytes as Uint8Array<ArrayBuffer>);
    await writing.close();
  }
  return ok(null);
}

async function existing(folder: FileSystemDirectoryHandle, path: string) {
  const file = await fileAt(folder, path, false);
  return file && (await bytesIn(file));
}

/** The file at a path in the folder; null where there is none and none is to be made. */
async function fileAt(
  folder: FileSystemDirectoryHandle,
  path: string,
  create: boolean,
): Promise<FileSystemFileHandle | null> {
  if (!staysInside(path)) throw new Error(`${path} is not inside the folder`);
  const steps = path.split('/');
  const name = steps.pop() ?? '';
  try {
    let inside = folder;
    for (const step of steps) inside = await inside.getDirectoryHandle(step, { create });
    return await inside.getFileHandle(name, { create });
  } catch (error) {
    if (!create && error instanceof Error && error.name === 'NotFoundError') return null;
    throw error;
  }
}
