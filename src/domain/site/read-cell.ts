import { fail, ok, type Result } from '../result';
import { unitWord } from '../show';
import { isLengthUnit, litres, metres, type LengthUnit, type VolumeUnit } from '../units';
import type { Field, Written } from './schema';

/** Units the cells of a table are recorded in. */
export type RecordedUnits = {
  readonly vertical: LengthUnit;
  readonly grid: LengthUnit;
  readonly volume: VolumeUnit;
};

export type CellValue = string | number | boolean | Written;

const DECIMAL = /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d{1,3})?$/i;
const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const TIME = /^(\d{4}-\d{2}-\d{2})(?:[T ]([01]\d|2[0-3]):[0-5]\d(?::[0-5]\d)?)?$/;

/** A plain decimal; null for anything else. `Number` alone reads "" as 0 and "0x10" as 16. */
export function decimal(text: string): number | null {
  if (!DECIMAL.test(text)) return null;
  const value = Number(text);
  return Number.isFinite(value) ? value : null;
}

/** Days in each month of a common year; February is looked after below. */
const MONTH_DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Whether text is a day of the calendar: 2025-02-30 is not one. */
export function isDay(text: string): boolean {
  const [, year, month, day] = DAY.exec(text)?.map(Number) ?? [];
  if (year === undefined || month === undefined || day === undefined) return false;
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const longest = month === 2 && leap ? 29 : (MONTH_DAYS[month - 1] ?? 0);
  return day >= 1 && day <= longest;
}

const isTime = (text: string) => isDay(TIME.exec(text)?.[1] ?? '');

/** What a cell should hold, for the sentence that refuses it. */
export function expectedOf(field: Field, unit: string | null): string {
  const least = field.least === undefined ? '' : `, ${field.least} or more`;
  switch (field.kind) {
    case 'text':
      return 'a text';
    case 'number':
      return `a number${field.unit ? ` in ${field.unit}` : ''}${least}`;
    case 'length':
    case 'distance':
    case 'volume':
      return `a number in ${unit === null ? 'the site’s unit' : unitWord(unit)}${least}`;
    case 'day':
      return 'a day like 2026-05-31';
    case 'time':
      return 'a time like 2026-05-31T14:05';
    case 'yes-no':
      return 'yes or no';
    case 'choice':
      return `one of ${(field.choices ?? []).join(', ')}`;
    case 'order':
      return 'a whole number, 0 or more';
  }
}

/** The unit a field's cells are in, or null for kinds without one. */
export function unitOf(field: Field, units: RecordedUnits, stated?: string): string | null {
  switch (field.kind) {
    case 'length':
      return stated ?? units.vertical;
    case 'distance':
      return stated ?? units.grid;
    case 'volume':
      return stated ?? units.volume;
    default:
      return field.unit ?? null;
  }
}

function written(text: string, field: Field, unit: string): Written | null {
  const number = decimal(text);
  if (number === null || (field.least !== undefined && number < field.least)) return null;
  if (field.kind === 'volume') return { value: litres(number, unit as VolumeUnit), text, unit };
  return { value: isLengthUnit(unit) ? metres(number, unit) : number, text, unit };
}

/**
 * One cell read as its field says; a blank is null.
 * @param unit  what `unitOf` gave for the field
 */
export function readCell(
  given: string,
  field: Field,
  unit: string | null,
): Result<CellValue | null, 'unreadable'> {
  const text = given.trim();
  if (text === '') return ok(null);
  const value = valueOf(text, field, unit);
  return value === null ? fail('unreadable') : ok(value);
}

function valueOf(text: string, field: Field, unit: string | null): CellValue | null {
  switch (field.kind) {
    case 'text':
      return text;
    case 'number':
    case 'length':
    case 'distance':
    case 'volume':
      return written(text, field, unit ?? '');
    case 'day':
      return isDay(text) ? text : null;
    case 'time':
      return isTime(text) ? text.replace(' ', 'T') : null;
    case 'yes-no':
      return /^(yes|no)$/i.test(text) ? text.toLowerCase() === 'yes' : null;
    case 'choice':
      return field.choices?.find((choice) => choice === text.toLowerCase()) ?? null;
    case 'order':
      return /^\d{1,9}$/.test(text) ? Number(text) : null;
  }
}
