import { base64Of } from '../../domain/base64';
import type { DataPackage } from '../../domain/site/data-package';
import { fail, ok, type Result } from '../../domain/result';
import { savePackage } from '../../io/package/save';
import { textOf, type Files } from '../../io/package/files';
import { laidPictures } from '../places/laid-pictures';
import { DATA_PLACE, type Taken } from './taken';

/** The viewer as it was built with the app: one page without data. */
const VIEWER = 'walk-viewer.html';

/**
 * The walk as one page: the viewer with the site in it, or why there is none.
 *
 * @param folder  files of the site's folder, for the bytes of the pictures released
 */
export async function walkFile(
  released: DataPackage,
  folder: Files,
  of: Omit<Taken, 'files' | 'pictures'>,
): Promise<Result<string, string>> {
  const answer = await fetch(new URL(VIEWER, document.baseURI)).catch(() => null);
  const viewer = answer?.ok ? await answer.text() : '';
  if (!viewer.includes(DATA_PLACE)) return fail('The viewer is not part of this build of the app.');
  const files = Object.fromEntries(
    [...savePackage(released)].map(([path, bytes]) => [path, textOf(bytes)]),
  );
  const pictures = Object.fromEntries(
    laidPictures(released, folder).map(({ picture, bytes }) => [picture.path, base64Of(bytes)]),
  );
  return ok(viewer.replace(DATA_PLACE, () => embedded({ ...of, files, pictures })));
}

/**
 * JSON as it may stand in a script element: nothing in it can end the element
 * or open a comment (HTML Standard, 4.12.1.3).
 */
export const embedded = (taken: Taken): string =>
  JSON.stringify(taken)
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');
