import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { sentenceOf } from '../../src/domain/site/problem';
import { openSite, siteOf } from '../../src/io/open-site';
import type { PlantedSite } from './planted';

const ROOT = new URL('../../', import.meta.url).pathname;

/** A site opened from a folder of the project. */
export function siteIn(folder: string): PlantedSite {
  const place = join(ROOT, folder);
  const files = new Map(
    readdirSync(place).map((file) => [file, new Uint8Array(readFileSync(join(place, file)))]),
  );
  const opened = openSite(files);
  if (!opened.ok) throw new Error(sentenceOf(opened.problem));
  const { package: given, site, grid } = opened.value;
  return {
    name: folder.split('/').at(-1) === 'site' ? 'inl-southwest' : (folder.split('/').at(-1) ?? ''),
    package: given,
    site,
    read: (changed) => siteOf(changed, grid, null),
  };
}

export const demoSites = () => [siteIn('demo-sites/osier-bend'), siteIn('demo-sites/quellmoor')];
export const inlSite = () => siteIn('tests/fixtures/inl-southwest/site');
