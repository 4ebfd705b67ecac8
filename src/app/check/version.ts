import { version } from '../../../package.json';

/** The version of the program, as printed on a sheet that somebody signs. */
export const VERSION: string = version;
