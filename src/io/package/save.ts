import type { DataPackage } from '../../domain/site/data-package';
import {
  fieldsOf,
  TABLE_NAMES,
  TABLES,
  type Field,
  type TableName,
} from '../../domain/site/schema';
import { usualFile } from '../../domain/site/site';
import { writeCsv } from '../csv';
import { bytesOf, type Files } from './files';
import { isRecord, writeSettings } from './settings';

/**
 * The site as files, the descriptor first, ready for a folder or a zip. The
 * same site gives the same bytes. What the descriptor held that is not ours is
 * kept where it stood.
 */
export function savePackage(site: DataPackage): Files {
  const files = new Map<string, Uint8Array>();
  files.set('datapackage.json', bytesOf(`${JSON.stringify(descriptorOf(site), null, 2)}\n`));
  for (const name of TABLE_NAMES) {
    const table = site.tables[name];
    if (table) files.set(site.paths[name] ?? usualFile(name), bytesOf(writeCsv(table)));
  }
  return files;
}

/** The descriptor of a site: a Frictionless Data Package with a Table Schema a table. */
function descriptorOf(site: DataPackage): Readonly<Record<string, unknown>> {
  const before: readonly unknown[] = Array.isArray(site.descriptor.resources)
    ? site.descriptor.resources
    : [];
  const present = TABLE_NAMES.filter((name) => site.tables[name] !== undefined);
  const ours = new Set<unknown>(present);
  const others = before.filter((r) => !isRecord(r) || !ours.has(r.name));
  return {
    ...site.descriptor,
    title: site.settings.title,
    profile: site.descriptor.profile ?? 'data-package',
    resources: [
      ...present.map((name) => ({
        ...before.filter(isRecord).find((r) => r.name === name),
        name,
        title: TABLES[name].title,
        description: TABLES[name].says,
        path: site.paths[name] ?? usualFile(name),
        profile: 'tabular-data-resource',
        schema: schemaOf(name, site.columnUnits[name] ?? {}),
      })),
      ...others,
    ],
    downgradient: {
      ...(isRecord(site.descriptor.downgradient) ? site.descriptor.downgradient : {}),
      ...writeSettings(site.settings),
    },
  };
}

const STANDARD_TYPES: Readonly<Record<Field['kind'], string>> = {
  text: 'string',
  number: 'number',
  length: 'number',
  distance: 'number',
  volume: 'number',
  day: 'date',
  time: 'string',
  'yes-no': 'string',
  choice: 'string',
  order: 'integer',
};

/** The Table Schema of a table (Frictionless Table Schema 1): types, constraints, keys. */
function schemaOf(name: TableName, units: Readonly<Record<string, string>>) {
  const fields = fieldsOf(name).map(([column, field]) => {
    const unit = units[column] ?? field.unit;
    const constraints = {
      ...(field.required ? { required: true } : {}),
      ...(field.least === undefined ? {} : { minimum: field.least }),
      ...(field.choices ? { enum: field.choices } : {}),
    };
    return {
      name: column,
      type: STANDARD_TYPES[field.kind],
      description: field.says,
      ...(unit === undefined ? {} : { unit }),
      ...(Object.keys(constraints).length > 0 ? { constraints } : {}),
    };
  });
  const foreignKeys = fieldsOf(name).flatMap(([column, { refers }]) =>
    refers === undefined
      ? []
      : [{ fields: column, reference: { resource: refers === name ? '' : refers, fields: 'id' } }],
  );
  const [only, ...more] = TABLES[name].key as readonly string[];
  return {
    fields,
    missingValues: [''],
    ...(only !== undefined && more.length === 0 ? { primaryKey: only } : {}),
    ...(foreignKeys.length > 0 ? { foreignKeys } : {}),
  };
}
