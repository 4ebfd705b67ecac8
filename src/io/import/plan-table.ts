import type { TableName } from '../../domain/site/schema';
import type { Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { shapeReader } from './coordinates';
import { columnOf, slotsOf, slotTitle } from './forms';
import type { Places } from './places';
import type { Plan } from './plan';
import { keptColumns, keyOf, missing, required, slotColumns } from './plan-common';
import { limitReader } from './readers';

/** Names rows of a table may be referred to by. */
function namesIn(context: Context, table: string): ReadonlyMap<string, unknown> | null {
  const { site } = context.target;
  switch (table) {
    case 'events':
      return site.events;
    case 'samples':
      return site.samples;
    case 'measuring_points':
      return site.measuringPoints;
    default:
      return null;
  }
}

/** A file of one table, each row one of its rows. */
export function planTable(context: Context, places: Places): Plan {
  const { form } = context.mapping;
  const columns = slotsOf(form).flatMap((slot): Made[] => {
    const column = columnOf(slot);
    const at = context.at(slot.id);
    const { refers } = slot.field;
    const heading = context.heading(at, slotTitle(slot));
    if (slot.id === 'features.shape' && at !== null)
      return [required({ column: 'shape', from: [at], make: one(shapeReader(context, heading)) }, heading, 'well-known text')]; // prettier-ignore
    if (slot.id === 'screening_levels.value' && at !== null)
      return [required({ column: 'value', from: [at], make: one(limitReader(context, heading)) }, heading, 'a level')]; // prettier-ignore
    const unit = context.unitOf(context.at('screening_levels.value'));
    if (slot.id === 'screening_levels.unit' && at === null && unit !== null)
      return [{ column: 'unit', from: [], make: () => unit }];
    if (column === 'id' && at === null) return [namedFrom(context, form)];
    if (refers !== undefined && column !== null && at !== null)
      return [{ column, from: [at], make: ([name = '']) => referred(context, places, refers, name, heading, slot.field.required === true) }]; // prettier-ignore
    const proposed = slot.id === 'screening_levels.set' ? nameOfFile(context) : null;
    return slotColumns(context, slot, proposed);
  });
  return {
    rows: { table: form, key: keyOf(form), columns: [...columns, ...keptColumns(context, form)] },
    once: [],
  };
}

/** “mcl” of “mcl.csv” */
const nameOfFile = ({ source }: Context) => source.name.replace(/\.[a-z]{2,5}$/i, '');

const one =
  (read: (text: string) => Cell): Made['make'] =>
  ([text = '']) =>
    read(text);

function referred(
  context: Context,
  places: Places,
  table: string,
  name: string,
  heading: string,
  isRequired: boolean,
): Cell {
  if (name === '') return isRequired ? missing(heading, `the id of a row of ${table}`) : '';
  if (table === 'locations') return places.location(name, heading);
  if (table === 'screens') return places.screen(name, heading);
  const names = namesIn(context, table);
  return !names || names.has(name)
    ? name
    : { column: heading, expected: `the id of a row of ${table}`, found: name };
}

/** Rows without a name of their own are called by their name column, or by the screen they serve. */
function namedFrom(context: Context, form: TableName): Made {
  const at = context.at(`${form}.name`) ?? context.at(`${form}.screen`);
  return required(
    { column: 'id', from: at === null ? [] : [at], make: ([text = '']) => text },
    context.heading(at, 'Name'),
    'a name for the row',
  );
}
