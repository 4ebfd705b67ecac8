import type { SheetFile } from './field-sheets.svelte';

/** Hands a file to the browser to be saved. */
export function saveFile({ name, type, text }: SheetFile) {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
