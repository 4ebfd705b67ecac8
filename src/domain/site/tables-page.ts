import { fieldsOf, TABLE_NAMES, TABLES, type Field, type TableName } from './schema';

const UNITS: Readonly<Partial<Record<Field['kind'], string>>> = {
  length: 'site’s vertical unit',
  distance: 'grid unit',
  volume: 'site’s volume unit',
  day: '2026-05-31',
  time: '2026-05-31T14:05, or the day alone',
  'yes-no': 'yes or no',
  order: 'whole number',
};

function constraintsOf(field: Field): string {
  const said = [
    field.required ? 'required' : '',
    field.refers === undefined ? '' : `names a row of \`${field.refers}\``,
    field.least === undefined ? '' : `${field.least} or more`,
    field.choices ? field.choices.join(', ') : '',
  ];
  return said.filter((s) => s !== '').join('; ');
}

function sectionOf(name: TableName): string {
  const { says } = TABLES[name];
  const key: readonly string[] = TABLES[name].key;
  const rows = fieldsOf(name).map(
    ([column, field]) =>
      `| \`${column}\` | ${field.says} | ${field.unit ?? UNITS[field.kind] ?? field.kind} | ${constraintsOf(field)} |`,
  );
  return [
    `## \`${name}\``,
    `${says}${key.length > 0 ? ` A row is known by ${key.map((k) => `\`${k}\``).join(' + ')}.` : ''}`,
    ['| column | what it is | unit or form | must be |', '|---|---|---|---|', ...rows].join('\n'),
  ].join('\n\n');
}

/** The page that documents the tables, made from the schema they are read with. */
export const tablesPage = () =>
  [
    '# The tables of a site',
    'Written from `src/domain/site/schema*.ts`; a test holds the two equal. A site is a folder of these tables as comma-separated files, described by `datapackage.json`. Any table may be absent; columns not named here are kept as they are. Depths are below ground, positive down; elevations are above the site’s named vertical datum and are never converted.',
    ...TABLE_NAMES.map(sectionOf),
  ].join('\n\n') + '\n';
