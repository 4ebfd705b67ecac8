import { placeImage, type LaidPicture } from '../../domain/picture-place';
import type { DataPackage } from '../../domain/site/data-package';
import { picturesOf } from '../../domain/site/pictures';
import { imageSize } from '../../io/formats/image';
import type { Files } from '../../io/package/files';

/**
 * Pictures of a site where they lie, the lowest first; those that cannot be read
 * or placed left out.
 *
 * @param files  those of the site's folder, for the bytes of the pictures
 */
export const laidPictures = (
  { descriptor, settings }: Pick<DataPackage, 'descriptor' | 'settings'>,
  files: Files,
): LaidPicture[] =>
  picturesOf(descriptor).flatMap((picture) => {
    const bytes = files.get(picture.path);
    const placed = placeImage(picture.size, picture.marks, settings.grid.unit);
    return bytes && placed.ok && imageSize(picture.path, bytes).ok
      ? [{ picture, bytes, placed: placed.value }]
      : [];
  });
