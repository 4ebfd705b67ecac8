import { readdirSync, readFileSync } from 'node:fs';
import { openSite, type OpenedSite } from '../../../src/io/open-site';

/** A demo site, read from its folder. */
export function demoSite(name: string): OpenedSite {
  const folder = new URL(`../../../demo-sites/${name}/`, import.meta.url);
  const files = readdirSync(folder).filter((file) => /\.(csv|json)$/.test(file));
  const opened = openSite(
    new Map(files.map((file) => [file, readFileSync(new URL(file, folder))])),
  );
  if (!opened.ok) throw new Error(JSON.stringify(opened.problem));
  return opened.value;
}
