import { expectedOf, readCell, unitOf } from '../site/read-cell';
import { fieldOf, type TableName } from '../site/schema';
import { unitsOf, type Settings } from '../site/settings';

/** What stands in the fields of a form, by column. */
export type Typed = Readonly<Record<string, string>>;

const COMMA = /^([-+]?\d*),(\d+)$/;

/** A number as the tables write it: a keypad's comma becomes a point. Other text is only trimmed. */
export const asWritten = (text: string): string => text.trim().replace(COMMA, '$1.$2');

/** Why a text cannot stand in a column: "A number in ft, 0 or more." Null when it can, or is blank. */
export function typedProblem(
  table: TableName,
  column: string,
  text: string,
  settings: Settings,
): string | null {
  const field = fieldOf(table, column);
  if (!field) return null;
  const unit = unitOf(field, unitsOf(settings));
  if (readCell(asWritten(text), field, unit).ok) return null;
  const expected = expectedOf(field, unit);
  return `${expected.charAt(0).toUpperCase()}${expected.slice(1)}.`;
}

/** Whether every field of a form can stand in its column. */
export const allReadable = (table: TableName, typed: Typed, settings: Settings): boolean =>
  Object.entries(typed).every(
    ([column, text]) => typedProblem(table, column, text, settings) === null,
  );

/** A form as a row: texts as written, blank fields left out. */
export function rowOf(typed: Typed): Record<string, string> {
  const written = Object.entries(typed).map(([column, text]) => [column, asWritten(text)] as const);
  return Object.fromEntries(written.filter(([, text]) => text !== ''));
}
