import { TABLE_NAMES, TABLES, type TableName } from '../../domain/site/schema';
import { geoJsonOf } from '../../io/export/geojson-out';
import { gpxOf } from '../../io/export/gpx-out';
import { kmlOf } from '../../io/export/kml-out';
import { placedSite } from '../../io/export/placed-things';
import { tableFile } from '../../io/export/table-out';
import { fileStem } from '../file-stem';
import { onePerSite } from '../one-per-site.svelte';
import type { OpenSite } from '../open-site.svelte';
import { workZip } from './work-zip';

/** A file ready to be handed over. */
export type FileOut = {
  readonly name: string;
  readonly content: string | Uint8Array;
  readonly type: string;
};

export type DrawingOut = 'GeoJSON' | 'KML' | 'GPX';

const DRAWINGS = {
  GeoJSON: { write: geoJsonOf, end: 'geojson', type: 'application/geo+json' },
  KML: { write: kmlOf, end: 'kml', type: 'application/vnd.google-earth.kml+xml' },
  GPX: { write: gpxOf, end: 'gpx', type: 'application/gpx+xml' },
} as const;

/** What a site gives out as files, beside itself as a folder or zip. */
export class SiteFiles {
  open = $state(false);
  readonly #site: OpenSite;

  constructor(site: OpenSite) {
    this.#site = site;
  }

  /** Tables the site has, with their rows. */
  readonly tables = $derived.by(() =>
    TABLE_NAMES.flatMap((name) => {
      const table = this.#site.package.tables[name];
      return table ? [{ name, title: TABLES[name].title, rows: table.size }] : [];
    }),
  );

  /** Locations and features where they lie on earth, and those that lie nowhere known. */
  readonly placed = $derived.by(() => placedSite(this.#site.site, this.#site.grid));

  get #stem() {
    return fileStem(this.#site.site.settings.title);
  }

  table(name: TableName): FileOut | null {
    const file = tableFile(this.#site.package, name);
    return file && { name: file.name, content: file.text, type: 'text/csv' };
  }

  drawing(kind: DrawingOut): FileOut {
    const { write, end, type } = DRAWINGS[kind];
    return { name: `${this.#stem}.${end}`, content: write(this.placed), type };
  }

  /** The heads and flow of the event in view, and the work behind every number, as tables in a zip. */
  work(): FileOut | null {
    const { site, shown } = this.#site;
    if (shown.event === null) return null;
    const content = workZip(site, shown.event);
    return { name: `${this.#stem}-work.zip`, content, type: 'application/zip' };
  }
}

/** The files a site gives out; the same each time it is asked for. */
export const filesOutOf = onePerSite((site) => new SiteFiles(site));
