import { fail, type Result } from '../domain/result';
import { sentenceOf } from '../domain/site/problem';
import { openSite, type OpenedSite } from '../io/open-site';
import type { Files } from '../io/package/files';

/** A site from files, or the sentence why there is none in them. */
export function openFiles(files: Files): Result<OpenedSite, string> {
  const opened = openSite(files);
  return opened.ok ? opened : fail(sentenceOf(opened.problem));
}
