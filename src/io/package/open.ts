import type { DataPackage } from '../../domain/site/data-package';
import type { Problem } from '../../domain/site/problem';
import { fieldsOf, isTableName, TABLE_NAMES, type TableName } from '../../domain/site/schema';
import { usualFile } from '../../domain/site/site';
import type { Table } from '../../domain/site/table';
import { fail, ok, type Result } from '../../domain/result';
import { readCsv } from '../csv';
import { textOf, type Files } from './files';
import { FOLDER_STEPS, migrated, type OpenedFolder, type Steps } from './migrate';
import { FORMAT, isRecord, readSettings, type ReadSettings } from './settings';

export type Opened = { readonly package: DataPackage; readonly problems: readonly Problem[] };

const DESCRIPTOR = 'datapackage.json';

const about = (
  file: string,
  expected: string,
  found: string,
  table: Problem['table'],
): Problem => ({
  table,
  file,
  row: null,
  column: null,
  expected,
  found,
});

/**
 * A site from the files of its folder. Fails only where there is nothing to
 * open: no descriptor, or one of a newer version. Anything less is a problem in
 * the list, and the rest of the site opens.
 * @param steps  from older formats to this one
 */
export function openPackage(
  given: Files,
  steps: Steps<OpenedFolder> = FOLDER_STEPS,
): Result<Opened, Problem> {
  const bytes = given.get(DESCRIPTOR);
  if (!bytes)
    return fail(
      about(
        DESCRIPTOR,
        'this file in the folder',
        [...given.keys()].slice(0, 8).join(', '),
        'file',
      ),
    );
  const found = parsed(textOf(bytes));
  if (!found)
    return fail(about(DESCRIPTOR, 'a JSON object', textOf(bytes.slice(0, 60)), 'datapackage'));
  const settings = isRecord(found.downgradient) ? found.downgradient : null;
  const format = settings?.format ?? FORMAT;
  if (typeof format !== 'number' || format > FORMAT)
    return fail(
      about(
        DESCRIPTOR,
        `format ${FORMAT} or older; open this site with a newer version`,
        JSON.stringify(format),
        'datapackage',
      ),
    );
  const now = migrated({ descriptor: found, files: given }, format, FORMAT, steps);
  if (!now)
    return fail(about(DESCRIPTOR, `format ${FORMAT}`, JSON.stringify(format), 'datapackage'));
  const { descriptor, files } = now;

  const read = readSettings(descriptor);
  const problems: Problem[] = [...read.problems];
  const resources = resourcesOf(descriptor);
  const tables: Partial<Record<TableName, Table>> = {};
  const paths: Partial<Record<TableName, string>> = {};
  const columnUnits: Partial<Record<TableName, Record<string, string>>> = {};

  for (const name of TABLE_NAMES) {
    const resource = resources.get(name);
    const path = resource?.path ?? usualFile(name);
    const file = files.get(path);
    if (!file) {
      if (resource) problems.push(about(path, 'this table’s file in the folder', '', name));
      continue;
    }
    const { table, broken } = readCsv(textOf(file));
    for (const { row, why } of broken)
      problems.push({ ...about(path, 'quotes that close', why, name), row });
    tables[name] = table;
    paths[name] = path;
    columnUnits[name] = { ...unknownUnits(name, read.unknown), ...resource?.units };
  }
  const site: DataPackage = {
    settings: read.settings,
    tables,
    paths,
    columnUnits,
    descriptor,
  };
  return ok({ package: site, problems });
}

function parsed(text: string): Readonly<Record<string, unknown>> | null {
  try {
    const value: unknown = JSON.parse(text.replace(/^\uFEFF/, ''));
    return isRecord(value) ? value : null;
  } catch {
    return null;
  }
}

type Resource = { readonly path: string; readonly units: Record<string, string> };

function resourcesOf(descriptor: Readonly<Record<string, unknown>>): Map<TableName, Resource> {
  const found = new Map<TableName, Resource>();
  const resources = Array.isArray(descriptor.resources) ? descriptor.resources : [];
  for (const resource of resources as readonly unknown[]) {
    if (!isRecord(resource) || typeof resource.name !== 'string' || !isTableName(resource.name))
      continue;
    const path = typeof resource.path === 'string' ? resource.path : usualFile(resource.name);
    found.set(resource.name, { path, units: unitsIn(resource.schema) });
  }
  return found;
}

/** Units a Table Schema states for its columns, where it states any. */
function unitsIn(schema: unknown): Record<string, string> {
  const fields: readonly unknown[] =
    isRecord(schema) && Array.isArray(schema.fields) ? schema.fields : [];
  const stated = fields
    .filter(isRecord)
    .flatMap(({ name, unit }) =>
      typeof name === 'string' && typeof unit === 'string' ? [[name.toLowerCase(), unit]] : [],
    );
  return Object.fromEntries(stated) as Record<string, string>;
}

/** Where the site's own unit is none we know, its columns must not be read as if in another. */
function unknownUnits(name: TableName, { vertical, grid }: ReadSettings['unknown']) {
  const units: Record<string, string> = {};
  for (const [column, { kind }] of fieldsOf(name)) {
    if (kind === 'length' && vertical !== null) units[column] = vertical;
    if (kind === 'distance' && grid !== null) units[column] = grid;
  }
  return units;
}
