/**
 * Makes the printer's page the sheet's own, in millimetres, until what comes back
 * is called. A style sheet made here, since none may stand in the page.
 */
export function ownPage({ width, height }: { width: number; height: number }): () => void {
  const rule = new CSSStyleSheet();
  rule.replaceSync(`@page { size: ${width}mm ${height}mm; margin: 0; }`);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, rule];
  return () => {
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((one) => one !== rule);
  };
}

export const fileName = (title: string) =>
  title
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-|-$/g, '')
    .slice(0, 60) || 'sheet';

export function saveBytes(made: BlobPart, type: string, name: string): void {
  const address = URL.createObjectURL(new Blob([made], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

export const saveText = (text: string, type: string, name: string) => saveBytes(text, type, name);
