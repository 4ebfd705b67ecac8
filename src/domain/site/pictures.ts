import type { EastNorth } from '../grid';

/** Width and height of an image, in its own dots. */
export type ImageSize = { readonly width: number; readonly height: number };

/** A mark seen in an image and known on the grid: dots from its top left corner, and grid units. */
export type ImageMark = {
  readonly name: string;
  readonly dots: readonly [right: number, down: number];
  readonly grid: EastNorth;
};

const IMAGE_TYPES = ['image/png', 'image/jpeg', 'image/webp'] as const;
export type ImageType = (typeof IMAGE_TYPES)[number];

/** A site plan or air photo of the site, with the marks it is placed by. Its bytes are a file of the folder. */
export type Picture = {
  /** In the folder: images/site-plan.png */
  readonly path: string;
  readonly title: string;
  readonly type: ImageType;
  readonly size: ImageSize;
  readonly marks: readonly ImageMark[];
  /** 0 to 1 */
  readonly opacity: number;
  /** Whether it is drawn under the points. */
  readonly shown: boolean;
};

type Json = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isNumber = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value);
const isPair = (value: unknown): value is readonly [number, number] =>
  Array.isArray(value) && value.length === 2 && value.every(isNumber);
const isMark = (value: unknown): value is ImageMark =>
  isRecord(value) && typeof value.name === 'string' && isPair(value.dots) && isPair(value.grid);

/** The resource of a descriptor that is a placed picture; null for any other. */
function pictureOf(resource: unknown): Picture | null {
  if (!isRecord(resource) || !isRecord(resource.placed)) return null;
  const { path, title, mediatype, placed } = resource;
  const { width, height, marks, opacity, shown } = placed;
  const type = IMAGE_TYPES.find((each) => each === mediatype);
  if (typeof path !== 'string' || !path.startsWith('images/') || type === undefined) return null;
  if (!isNumber(width) || !isNumber(height) || !Array.isArray(marks) || !marks.every(isMark))
    return null;
  return {
    path,
    title: typeof title === 'string' ? title : path.slice('images/'.length),
    type,
    size: { width, height },
    marks: marks.map(({ name, dots, grid }) => ({ name, dots, grid })),
    opacity: isNumber(opacity) ? Math.min(1, Math.max(0, opacity)) : 1,
    shown: shown !== false,
  };
}

const resourcesOf = ({ resources }: Json): readonly unknown[] =>
  Array.isArray(resources) ? resources : [];

/** Pictures of a site in the order of its descriptor, the lowest first. */
export const picturesOf = (descriptor: Json): readonly Picture[] =>
  resourcesOf(descriptor).flatMap((resource) => pictureOf(resource) ?? []);

/** A descriptor with these pictures and no others; each is a resource with its control points. */
export function withPictures(descriptor: Json, pictures: readonly Picture[]): Json {
  const resources = resourcesOf(descriptor);
  const before = (path: string) =>
    resources.filter(isRecord).find((resource) => resource.path === path) ?? {};
  return {
    ...descriptor,
    resources: [
      ...resources.filter((resource) => pictureOf(resource) === null),
      ...pictures.map(({ path, title, type, size, marks, opacity, shown }) => ({
        ...before(path),
        name: path.replace(/^images\//, 'image-').replaceAll(/[^a-z0-9._-]+/gi, '-').toLowerCase(), // prettier-ignore
        title,
        path,
        mediatype: type,
        placed: { ...size, marks, opacity, shown },
      })),
    ],
  };
}
