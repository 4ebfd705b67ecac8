/** The version of the program, as printed on a sheet that somebody signs. */
export const VERSION: string =
  Object.values(import.meta.glob<string>('/package.json', { eager: true, import: 'version' }))[0] ??
  '';

/** The format of a site's tables, as written into its folder. */
export { FORMAT } from '../../io/package/settings';
