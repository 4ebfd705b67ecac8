import { ok, type Result } from '../../result';
import type { DataPackage } from '../data-package';
import { withPictures, type Picture } from '../pictures';

/** The pictures of the site as they are from now on: one placed, changed, hidden or taken away. */
export type PlacePictures = {
  readonly kind: 'place-pictures';
  readonly pictures: readonly Picture[];
};

export const placePictures = (
  site: DataPackage,
  { pictures }: PlacePictures,
): Result<DataPackage, never> =>
  ok({ ...site, descriptor: withPictures(site.descriptor, pictures) });
