/** Hand a file to the person, as the browser does it: into their downloads. */
export function saveFile(
  name: string,
  content: Uint8Array | ArrayBuffer | Blob | string,
  type: string,
): void {
  const part = content instanceof Uint8Array ? new Uint8Array(content) : content;
  const address = URL.createObjectURL(new Blob([part], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
