import type { DataPackage } from '../../domain/site/data-package';
import type { TableName } from '../../domain/site/schema';
import { usualFile } from '../../domain/site/site';
import { writeCsv } from '../csv';

/** A table as a file of its own, as it stands in the site's folder; null where the site has none. */
export function tableFile(
  site: DataPackage,
  name: TableName,
): { readonly name: string; readonly text: string } | null {
  const table = site.tables[name];
  if (!table) return null;
  const path = site.paths[name] ?? usualFile(name);
  return { name: path.slice(path.lastIndexOf('/') + 1), text: writeCsv(table) };
}
