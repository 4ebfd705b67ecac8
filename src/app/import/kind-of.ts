import { pathsIn } from '../../io/formats/bounded-zip';
import { ENOUGH, whatItIs, type FileKind } from '../../io/formats/what-it-is';

/** What a file is, told by its bytes. */
export async function kindOf(file: File): Promise<FileKind> {
  const head = new Uint8Array(await file.slice(0, ENOUGH).arrayBuffer());
  const isZip = head[0] === 0x50 && head[1] === 0x4b;
  const paths = isZip ? pathsIn(new Uint8Array(await file.arrayBuffer())) : null;
  return whatItIs(head, head.length === file.size, isZip ? () => paths : null);
}
