/** The version of the program, as printed on a sheet that somebody signs. */
export const VERSION: string =
  Object.values(import.meta.glob<string>('/package.json', { eager: true, import: 'version' }))[0] ??
  '';
