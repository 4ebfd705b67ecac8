import { addProtocol } from 'maplibre-gl';
import type { ImageItem } from '../scene/scene';

/** Dots on a side that every graphics card takes. */
const LONGEST = 4096;

const made = new WeakMap<Uint8Array, Promise<ImageBitmap>>();

/** A picture opened out for the graphics card, smaller than its file where it must be. */
function bitmapOf({ bytes, type }: ImageItem): Promise<ImageBitmap> {
  const before = made.get(bytes);
  if (before) return before;
  const opened = open(new Blob([bytes as Uint8Array<ArrayBuffer>], { type }));
  made.set(bytes, opened);
  return opened;
}

async function open(file: Blob): Promise<ImageBitmap> {
  const whole = await createImageBitmap(file);
  const by = LONGEST / Math.max(whole.width, whole.height);
  if (by >= 1) return whole;
  const resized = await createImageBitmap(whole, {
    resizeWidth: Math.max(1, Math.round(whole.width * by)),
    resizeHeight: Math.max(1, Math.round(whole.height * by)),
    resizeQuality: 'high',
  });
  whole.close();
  return resized;
}

const SCHEME = 'site-picture';
const asked = new Map<string, ImageItem>();
let isAdded = false;

/**
 * An address at which MapLibre finds a picture of the site: a scheme of our own,
 * so that nothing is fetched and the page's policy is not asked.
 */
export function addressForMap(name: string, item: ImageItem): string {
  if (!isAdded)
    addProtocol(SCHEME, async ({ url }) => {
      const wanted = asked.get(url);
      if (!wanted) throw new Error(`${url} is no picture of this site.`);
      return { data: await bitmapOf(wanted) };
    });
  isAdded = true;
  const address = `${SCHEME}://${name}`;
  asked.set(address, item);
  return address;
}

export const forget = (address: string) => asked.delete(address);
