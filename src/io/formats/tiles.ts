import { PMTiles, SharedPromiseCache, Compression, TileType, type Source } from 'pmtiles';
import { fail, ok, type Result } from '../../domain/result';

/** What the tiles of an archive are: pictures, or shapes to be drawn. */
export type TileKind = 'pictures' | 'shapes';

/** A local archive of map tiles, opened. Nothing is fetched: tiles are cut out of the file. */
export type TileArchive = {
  readonly name: string;
  readonly kind: TileKind;
  readonly least: number;
  readonly most: number;
  /** Degrees: west, south, east, north. */
  readonly bounds: readonly [number, number, number, number];
  /** Layers of shapes, by the name they have in the tiles; none for pictures. */
  readonly layers: readonly string[];
  /** Whoever must be named beside it, as plain words; blank where the archive says nothing. */
  readonly credit: string;
  /** One tile's bytes; null where the archive has none there. */
  readonly tile: (zoom: number, x: number, y: number) => Promise<ArrayBuffer | null>;
};

/** A tile or directory that opens out to more is no tile: a few bytes can claim gigabytes. */
const MOST_BYTES = 32 * 2 ** 20;

async function opened(bytes: ArrayBuffer, compression: Compression): Promise<ArrayBuffer> {
  if (compression === Compression.None || compression === Compression.Unknown) return bytes;
  if (compression !== Compression.Gzip) throw new Error('its tiles are packed in a way not read here: only gzip is'); // prettier-ignore
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  const parts: Uint8Array[] = [];
  let total = 0;
  for (const reader = stream.getReader(); ;) {
    const { done, value } = await reader.read();
    if (done) break;
    total += value.length;
    if (total > MOST_BYTES) {
      await reader.cancel();
      throw new Error('a tile of it swells to more than 32 MB');
    }
    parts.push(value);
  }
  return new Blob(parts as Uint8Array<ArrayBuffer>[]).arrayBuffer();
}

/** A file as the archive reads it: by pieces, never past its end. */
function pieces(file: Blob, name: string): Source {
  return {
    getKey: () => name,
    getBytes: async (offset, length) => {
      if (offset > file.size || length > MOST_BYTES) throw new Error('it points beyond its own end'); // prettier-ignore
      return { data: await file.slice(offset, offset + length).arrayBuffer() };
    },
  };
}

const KINDS: Readonly<Partial<Record<TileType, TileKind>>> = {
  [TileType.Mvt]: 'shapes',
  [TileType.Png]: 'pictures',
  [TileType.Jpeg]: 'pictures',
  [TileType.Webp]: 'pictures',
};

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Names of the layers of shapes, out of the archive's own description. */
const layersIn = (about: unknown): string[] =>
  isRecord(about) && Array.isArray(about.vector_layers)
    ? about.vector_layers
        .filter(isRecord)
        .flatMap(({ id }) => (typeof id === 'string' && id.length < 200 ? [id] : []))
        .slice(0, 100)
    : [];

/** The credit an archive asks for, without whatever markup it holds. */
const creditIn = (about: unknown): string =>
  isRecord(about) && typeof about.attribution === 'string'
    ? about.attribution.replaceAll(/<[^>]*>/g, '').replaceAll(/[<>]/g, '').replaceAll(/&copy;/gi, '©').trim().slice(0, 200) // prettier-ignore
    : '';

/**
 * Opens a local archive of map tiles: PMTiles, version 3 (the open
 * specification of the format, github.com/protomaps/PMTiles, spec/v3).
 */
export async function openTiles(name: string, file: Blob): Promise<Result<TileArchive, string>> {
  const archive = new PMTiles(
    pieces(file, name),
    new SharedPromiseCache(100, true, opened),
    opened,
  );
  try {
    const { tileType, minZoom, maxZoom, minLon, minLat, maxLon, maxLat } =
      await archive.getHeader();
    const kind = KINDS[tileType];
    if (!kind) return fail(`${name} holds tiles of a kind that is not drawn here: PNG, JPEG, WebP and vector tiles are.`); // prettier-ignore
    if (
      minZoom > maxZoom ||
      maxZoom > 30 ||
      [minLon, minLat, maxLon, maxLat].some((n) => !Number.isFinite(n))
    )
      // prettier-ignore
      return fail(`${name} is not opened: its header does not make sense.`);
    const about: unknown = await archive.getMetadata().catch(() => null);
    return ok({
      name,
      kind,
      least: minZoom,
      most: maxZoom,
      bounds: [minLon, minLat, maxLon, maxLat],
      layers: layersIn(about),
      credit: creditIn(about),
      tile: async (zoom, x, y) => (await archive.getZxy(zoom, x, y))?.data ?? null,
    });
  } catch (error) {
    return fail(`${name} is not opened: ${error instanceof Error ? error.message : 'it is no archive of tiles'}.`); // prettier-ignore
  }
}
