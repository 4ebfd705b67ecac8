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
