import { openSite, type OpenedSite } from '../../../../src/io/open-site';

const FILES = import.meta.glob<string>('../../../../demo-sites/*/*.{csv,json}', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** A demo site, read as the app reads it. */
export function demo(name: string): OpenedSite {
  const files = new Map(
    Object.entries(FILES)
      .filter(([path]) => path.includes(`/${name}/`))
      .map(([path, text]) => [path.split('/').at(-1) ?? '', new TextEncoder().encode(text)]),
  );
  const opened = openSite(files);
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  return opened.value;
}
