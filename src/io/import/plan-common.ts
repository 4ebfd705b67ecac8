import { TABLES, type TableName } from '../../domain/site/schema';
import type { Cell, Refusal } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { columnOf, slotsOf, slotTitle, type Slot } from './forms';
import { lengthColumns } from './length-columns';
import { readerFor } from './readers';

export const keyOf = (table: TableName): readonly string[] => TABLES[table].key;

/** A refusal of a blank where there must be something. */
export const missing = (column: string, expected: string): Refusal => ({
  column,
  expected,
  found: '',
});

/** A column that must not be blank. */
export function required(made: Made, heading: string, expected: string): Made {
  return {
    ...made,
    make: (texts) => {
      const cell = made.make(texts);
      return cell === '' ? missing(heading, expected) : cell;
    },
  };
}

/**
 * The columns a slot becomes: from its column of the file, or the same in every
 * row where a person said so; none where neither. A slot no row can do without
 * is asked for.
 */
export function slotColumns(context: Context, slot: Slot, proposed: string | null = null): Made[] {
  const column = columnOf(slot);
  if (column === null) return [];
  const { field } = slot;
  const at = context.at(slot.id);
  const title = slotTitle(slot);
  if (field.kind === 'length' || field.kind === 'distance') {
    const [first, ...others] = lengthColumns(context, slot, column);
    if (!first) return [];
    return field.required
      ? [required(first, context.heading(at, title), 'a number'), ...others]
      : [first, ...others];
  }
  const read = readerFor(context, slot, at);
  if (at !== null) {
    const made: Made = { column, from: [at], make: ([text = '']) => read(text) };
    const heading = context.heading(at, title);
    return [field.required ? required(made, heading, saysOf(slot)) : made];
  }
  const constant = context.constant(slot.id);
  if (field.required) context.askConstant(slot.id, proposed);
  if (constant !== null) {
    const cell = read(constant);
    return [{ column, from: [], make: () => cell }];
  }
  if (!field.required) return [];
  return [{ column, from: [], make: () => missing(title, 'an answer to what it is in every row') }];
}

const saysOf = ({ field }: Slot) =>
  field.choices ? `one of ${field.choices.join(', ')}` : 'something here';

/** Names no object should have as a column. */
const isReserved = (name: string) => name in {};

/**
 * Columns of the file that no slot takes, kept under their own headings as the
 * tables write them: small letters, nothing that a column of ours is called.
 */
export function keptColumns(context: Context, table: TableName): Made[] {
  const { mapping, source } = context;
  const taken = new Set<string>(Object.keys(TABLES[table].fields));
  return mapping.columns.flatMap((use, at): Made[] => {
    if (use.use !== 'keep') return [];
    const written = (source.headings[at] ?? '').trim().toLowerCase();
    const bare = written === '' || isReserved(written) ? `column ${at + 1}` : written;
    let column = bare;
    for (let n = 2; taken.has(column); n++) column = `${bare} (${n === 2 ? 'file' : n})`;
    taken.add(column);
    return [{ column, from: [at], make: ([text = '']): Cell => text }];
  });
}

/** All slots of a form that are columns of one table, but for some that are made otherwise. */
export function tableColumns(
  context: Context,
  table: TableName,
  otherwise: readonly string[] = [],
): Made[] {
  return slotsOf(context.mapping.form)
    .filter((slot) => slot.table === table && columnOf(slot) !== null)
    .filter((slot) => !otherwise.includes(slot.id))
    .flatMap((slot) => slotColumns(context, slot));
}
