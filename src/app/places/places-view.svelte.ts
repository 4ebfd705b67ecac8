import type { EastNorth } from '../../domain/grid';
import type { LaidPicture } from '../../domain/picture-place';
import { fail, ok, type Result } from '../../domain/result';
import { picturesOf, type Picture } from '../../domain/site/pictures';
import { inUnits, metres } from '../../domain/units';
import { imageSize } from '../../io/formats/image';
import { sha256 } from '../../io/keeping/digest';
import { kindOf } from '../import/kind-of';
import type { MapTool } from '../lay-out/map-tool';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';
import { backdropOf } from './backdrop.svelte';
import { laidPictures } from './laid-pictures';
import { PictureDraft } from './picture-draft.svelte';

const ENDINGS = { 'image/png': 'png', 'image/jpeg': 'jpg', 'image/webp': 'webp' } as const;

/** Larger files are no plan of a site, and a browser chokes on them. */
const MOST_BYTES = 100 * 2 ** 20;

const READ_ONLY = 'Another window has this site: here it can only be looked at.';

/** The pictures of a site and what else lies under its map. */
export class PlacesView {
  open = $state(false);
  trouble = $state('');
  draft: PictureDraft | null = $state.raw(null);
  /** Whether the next press on the map is the place of the mark in hand. */
  picking = $state(false);
  readonly #site: OpenSite;

  constructor(site: OpenSite) {
    this.#site = site;
  }

  readonly pictures: readonly Picture[] = $derived.by(() =>
    picturesOf(this.#site.package.descriptor),
  );

  /** Why a picture is not drawn, by its path. */
  readonly troubles: Readonly<Record<string, string>> = $derived.by(() => {
    const found = this.pictures.map(({ path }) => [path, this.#bytesOf(path)] as const);
    return Object.fromEntries(
      found.flatMap(([path, bytes]) => (bytes.ok ? [] : [[path, bytes.problem]])),
    );
  });

  readonly #kept: readonly LaidPicture[] = $derived.by(() =>
    laidPictures(this.#site.package, this.#site.files),
  );

  /** Pictures as they lie, the one being placed among them as soon as two of its marks are given. */
  readonly laid: readonly LaidPicture[] = $derived.by(() => {
    const { draft } = this;
    if (!draft) return this.#kept;
    const picture = draft.picture(draft.before?.path ?? '');
    const others = this.#kept.filter(({ picture: { path } }) => path !== draft.before?.path);
    return picture && draft.placed.ok
      ? [...others, { picture, bytes: draft.bytes, placed: draft.placed.value }]
      : others;
  });

  #bytesOf(path: string): Result<Uint8Array, string> {
    const bytes = this.#site.files.get(path);
    if (!bytes) return fail(`${path} is not in the site’s folder.`);
    const size = imageSize(path, bytes);
    return size.ok ? ok(bytes) : size;
  }

  /** Files opened or dropped: pictures to be placed, or an archive of tiles. */
  async openFiles(files: readonly File[]): Promise<void> {
    this.open = true;
    this.trouble = '';
    for (const file of files) {
      const kind = await kindOf(file);
      if (kind.kind === 'tiles') await backdropOf(this.#site).openFile(file);
      else if (kind.kind === 'image') await this.#begin(file);
      else
        this.trouble = `${file.name} is not opened: ${kind.kind === 'refused' ? kind.why : 'it is no picture and no archive of tiles'}.`;
    }
  }

  async #begin(file: File) {
    if (file.size > MOST_BYTES) {
      this.trouble = `${file.name} has ${Math.round(file.size / 2 ** 20)} MB; a picture has at most ${MOST_BYTES / 2 ** 20}.`;
      return;
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    const said = imageSize(file.name, bytes);
    if (!said.ok) {
      this.trouble = said.problem;
      return;
    }
    const size = await sizeOpenedOut(bytes, said.value.type);
    if (!size) {
      this.trouble = `${file.name} can’t be shown: it is damaged.`;
      return;
    }
    const title = file.name.replace(/\.[a-z]+$/i, '');
    this.draft = new PictureDraft({ title, bytes, type: said.value.type, size }, () => this.#site.grid); // prettier-ignore
  }

  /** Place a picture anew by its marks. */
  begin(picture: Picture) {
    const bytes = this.#bytesOf(picture.path);
    if (bytes.ok)
      this.draft = new PictureDraft({ ...picture, bytes: bytes.value }, () => this.#site.grid, picture); // prettier-ignore
  }

  /** Keep the picture where its marks put it: one step that can be undone. */
  async keep(): Promise<void> {
    const { draft } = this;
    if (!draft) return;
    const path = draft.before?.path ?? (await pathFor(draft));
    const picture = draft.picture(path);
    if (!picture) return;
    if (!this.#site.canEdit) {
      this.trouble = READ_ONLY;
      return;
    }
    if (!draft.before) this.#site.carry(path, draft.bytes);
    const isKnown = this.pictures.some((each) => each.path === path);
    const pictures = isKnown
      ? this.pictures.map((each) => (each.path === path ? picture : each))
      : [...this.pictures, picture];
    if (this.#edit(`Place the picture ${picture.title}`, pictures)) this.draft = null;
  }

  change(path: string, change: Partial<Pick<Picture, 'opacity' | 'shown'>>) {
    const picture = this.pictures.find((each) => each.path === path);
    if (!picture) return;
    const deed = change.shown === undefined ? 'Change how strong' : change.shown ? 'Show' : 'Hide';
    this.#edit(
      `${deed} the picture ${picture.title}${change.shown === undefined ? ' is' : ''}`,
      this.pictures.map((each) => (each.path === path ? { ...each, ...change } : each)),
    );
  }

  remove({ path, title }: Picture) {
    this.#edit(`Take away the picture ${title}`, this.pictures.filter((each) => each.path !== path)); // prettier-ignore
  }

  #edit(label: string, pictures: readonly Picture[]): boolean {
    const made = this.#site.edit(label, { kind: 'place-pictures', pictures });
    this.trouble = made.ok ? '' : READ_ONLY;
    return made.ok;
  }

  /** Over the map while a place is picked on it; a press on a point of the site takes its coordinates. */
  readonly tool: MapTool | null = $derived.by(() =>
    this.picking
      ? {
          press: ([east, north], reach) => {
            this.draft?.know(this.#near(east, north, reach));
            this.picking = false;
          },
          point: () => undefined,
          grab: () => false,
          drag: () => undefined,
          drop: () => undefined,
        }
      : null,
  );

  #near(east: number, north: number, reach: number): EastNorth {
    const { unit } = this.#site.grid;
    const points = [...this.#site.site.locations.values()].flatMap(({ easting, northing }) =>
      easting && northing ? [[easting.value, northing.value] as const] : [],
    );
    const off = ([e, n]: readonly [number, number]) => Math.hypot(e - east, n - north);
    const nearest = points.toSorted((a, b) => off(a) - off(b))[0];
    const [e, n] = nearest && off(nearest) <= reach ? nearest : [east, north];
    return [inUnits(metres(e), unit), inUnits(metres(n), unit)];
  }
}

/** Width and height once it is opened out, turned as its camera says; null where it can't be. */
async function sizeOpenedOut(bytes: Uint8Array, type: string) {
  try {
    const bitmap = await createImageBitmap(new Blob([bytes as Uint8Array<ArrayBuffer>], { type }));
    const { width, height } = bitmap;
    bitmap.close();
    return { width, height };
  } catch {
    return null;
  }
}

/** Where a picture goes in the folder; its digest in the name tells two of one name apart. */
async function pathFor({ title, bytes, type }: PictureDraft): Promise<string> {
  const stem = title.trim().toLowerCase().replaceAll(/[^a-z0-9]+/g, '-').slice(0, 40).replace(/^-|-$/g, ''); // prettier-ignore
  const digest = (await sha256(bytes)).slice(0, 12);
  return `images/${stem || 'picture'}.${digest}.${ENDINGS[type]}`;
}

/** The pictures of a site; the same view each time it is asked for. */
export const placesOf = onePerSite((site) => new PlacesView(site));
