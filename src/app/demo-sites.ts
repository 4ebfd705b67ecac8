import { bytesOf, type Files } from '../io/package/files';

/** The demo sites that come with the app, one loader a file; nothing is read until one is opened. */
const FILES = import.meta.glob<string>(['/demo-sites/*/*.csv', '/demo-sites/*/datapackage.json'], {
  query: '?raw',
  import: 'default',
});

const parts = (path: string) => /^\/demo-sites\/([^/]+)\/(.+)$/.exec(path);

/** Names of the demo sites, as in an address. */
export const DEMO_SITES: readonly string[] = [
  ...new Set(Object.keys(FILES).flatMap((path) => parts(path)?.[1] ?? [])),
];

/** The files of a demo site. */
export async function demoFiles(name: string): Promise<Files> {
  const wanted = Object.entries(FILES).flatMap(([path, load]) => {
    const [, site, file] = parts(path) ?? [];
    return site === name && file !== undefined ? [{ file, load }] : [];
  });
  const read = wanted.map(async ({ file, load }) => [file, bytesOf(await load())] as const);
  return new Map(await Promise.all(read));
}
