import type { Source } from '../work';
import type { Site } from './site';

/** Where a number came from, in words: "water_levels.csv, row 12, depth_to_water". */
export function sourceName(site: Site, source: Source): string {
  switch (source.kind) {
    case 'cell':
      return `${site.files[source.table]}, row ${source.row}, ${source.column}`;
    case 'setting':
      return `site settings: ${source.name}`;
    case 'citation':
      return source.text;
    case 'work':
      return source.work.title;
  }
}
