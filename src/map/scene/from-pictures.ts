import type { LaidPicture } from '../../domain/picture-place';
import { metres, type LengthUnit } from '../../domain/units';
import type { ImageItem, Place } from './scene';

/** Pictures under the points, in their order; those that are hidden left out. */
export const pictureItems = (laid: readonly LaidPicture[], unit: LengthUnit): ImageItem[] =>
  laid
    .filter(({ picture }) => picture.shown)
    .map(({ picture, bytes, placed }): ImageItem => {
      const at = ([easting, northing]: readonly [number, number]): Place => [
        metres(easting, unit),
        metres(northing, unit),
      ];
      const [a, b, c, d] = placed.corners;
      return {
        kind: 'image',
        layer: 'pictures',
        means: `${picture.title}: placed by ${picture.marks.length} control points`,
        corners: [at(a), at(b), at(c), at(d)],
        bytes,
        type: picture.type,
        opacity: picture.opacity,
      };
    });
