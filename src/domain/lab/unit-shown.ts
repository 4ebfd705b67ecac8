/**
 * A unit as it is shown: laboratories without the letter write "ug/L" for
 * micrograms per litre, and one sheet says both alike. The cell keeps its words.
 */
export const withMicro = (text: string): string =>
  text.replaceAll(/(?<![A-Za-z])ug(?=\/(?:L|l|kg)(?![A-Za-z]))/g, 'µg');
