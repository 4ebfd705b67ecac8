/** The style sheet that makes the printer's page the sheet's own, in millimetres. */
export function pageRule({ width, height }: { width: number; height: number }): CSSStyleSheet {
  const rule = new CSSStyleSheet();
  rule.replaceSync(`@page { size: ${width}mm ${height}mm; margin: 0; }`);
  return rule;
}

/** Hands a drawing to the browser to save, as a file of its own. */
export function saveSvg(drawn: SVGElement, title: string): void {
  const text = new XMLSerializer().serializeToString(drawn);
  saveText(
    `<?xml version="1.0" encoding="UTF-8"?>\n${text}`,
    'image/svg+xml',
    `${fileName(title)}.svg`,
  );
}

export const fileName = (title: string) =>
  title
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-|-$/g, '')
    .slice(0, 60) || 'sheet';

export function saveText(text: string, type: string, name: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
