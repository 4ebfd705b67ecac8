import { bytesOfBase64 } from '../../domain/base64';
import { fail, ok, type Result } from '../../domain/result';
import { sentenceOf } from '../../domain/site/problem';
import { bytesOf } from '../../io/package/files';
import { openPackage } from '../../io/package/open';
import { OpenSite } from '../open-site.svelte';

/** What a walk that was taken away holds. */
export type Taken = {
  /** Files of the site's folder by path. */
  readonly files: Readonly<Record<string, string>>;
  /** Pictures of the folder by path, in base64. */
  readonly pictures: Readonly<Record<string, string>>;
  readonly event: string | null;
  readonly zone: string | null;
  readonly levelSet: string | null;
};

/** Where the data stand in the viewer's page until there are some. */
export const DATA_PLACE = '"the walk goes here"';

/** The site in the page, opened to be looked at. */
export function openTaken(text: string): Result<OpenSite, string> {
  let taken: Taken;
  try {
    taken = JSON.parse(text) as Taken;
  } catch {
    return fail('The data in this file are cut short.');
  }
  if (typeof taken !== 'object' || taken === null || !taken.files || !taken.pictures)
    return fail('There is no walk in this file.');
  const files = new Map(Object.entries(taken.files).map(([path, of]) => [path, bytesOf(of)]));
  const opened = openPackage(files);
  if (!opened.ok) return fail(sentenceOf(opened.problem));
  const pictures = new Map(
    Object.entries(taken.pictures).map(([path, of]) => [path, bytesOfBase64(of)]),
  );
  const site = new OpenSite({ package: opened.value.package, problems: [], files: pictures });
  site.show({ event: taken.event, zone: taken.zone, levelSet: taken.levelSet });
  return ok(site);
}
