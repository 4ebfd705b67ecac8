/** A title as the name of a file before its ending: letters and figures, parted by single dashes. */
export const fileStem = (title: string, without = 'site'): string =>
  title
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-/, '')
    .slice(0, 60)
    .replace(/-$/, '') || without;
