import { join } from 'node:path';
import { ROOT, serveBuilt, type ServedApp } from '../serve';

export type ServedPage = ServedApp;

/** A page of the tests' own: a folder here with an index.html, built as the app is built. */
export const servePage = (name: string): Promise<ServedPage> =>
  serveBuilt(join(ROOT, 'tests', 'browser', 'pages', name), { configFile: false });
