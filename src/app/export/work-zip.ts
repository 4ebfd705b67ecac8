import type { Site } from '../../domain/site/site';
import { flowTables, headTables } from '../../io/export/work-tables';
import { bytesOf, zipOf } from '../../io/package/files';

/** Heads and flow of an event, and the work behind every number, as tables in a zip. */
export function workZip(site: Site, event: string): Uint8Array {
  const files = [...headTables(site, event), ...flowTables(site, event)];
  return zipOf(new Map(files.map(([name, text]) => [name, bytesOf(text)])));
}
