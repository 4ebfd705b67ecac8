import { plainDigits, readReported } from '../../domain/lab/reported';
import { expectedOf } from '../../domain/site/read-cell';
import { decimalsIn } from '../../domain/show';
import { inVolumeUnits, isVolumeUnit, litres } from '../../domain/units';
import type { Cell } from './ask';
import type { Made } from './cells';
import { choiceReader, codeReader } from './choice-readers';
import type { Context } from './context';
import { A_CLOCK, readClock } from './days';
import { slotTitle, type Slot } from './forms';
import { recordedUnit } from './length-columns';
import { matrixReader } from './matrix-words';
import { digitsOf, numberExpected, refuse, remembering, whenExpected, type Reader } from './reader';

/** Texts that files often have as a code of one letter. */
const CODED = new Set(['screens.zone']);

/** Reads the cells of a slot that is no length, as its field says. */
export function readerFor(context: Context, slot: Slot, at: number | null): Reader {
  const { field } = slot;
  const heading = context.heading(at, slotTitle(slot));
  switch (field.kind) {
    case 'text':
      if (slot.id === 'samples.matrix') return remembering(matrixReader(context, slot, at));
      return CODED.has(slot.id) && /(?:_cd|[\s_]codes?)$/i.test(heading)
        ? codeReader(context, slot, heading)
        : (text) => text;
    case 'number':
    case 'length':
    case 'distance':
      return (text) => {
        if (text === '') return '';
        const digits = digitsOf(text, context);
        return digits === null || (field.least !== undefined && Number(digits) < field.least)
          ? refuse(
              heading,
              numberExpected(context, text, expectedOf(field, field.unit ?? null)),
              text,
            )
          : digits;
      };
    case 'volume':
      return (text) => volume(context, slot, heading, at, text);
    case 'day':
      return (text) => {
        if (text === '') return '';
        const when = context.when(text);
        return 'text' in when ? when.text.slice(0, 10) : refuse(heading, whenExpected(when), text);
      };
    case 'time':
      return (text) => {
        if (text === '') return '';
        const when = context.when(text);
        return 'text' in when ? when.text : refuse(heading, whenExpected(when), text);
      };
    case 'yes-no':
      return (text) => {
        const word = text.toLowerCase();
        if (word === '') return '';
        if (/^(?:yes|y|true|t)$/.test(word)) return 'yes';
        return /^(?:no|n|false|f)$/.test(word) ? 'no' : refuse(heading, 'yes or no', text);
      };
    case 'choice':
      return choiceReader(context, slot, heading);
    case 'order':
      return (text) =>
        text === '' || /^\d{1,9}$/.test(text)
          ? text
          : refuse(heading, expectedOf(field, null), text);
  }
}

function volume(
  context: Context,
  slot: Slot,
  heading: string,
  at: number | null,
  text: string,
): Cell {
  if (text === '') return '';
  const digits = digitsOf(text, context);
  const recorded = recordedUnit(context, slot) ?? '';
  if (digits === null || Number(digits) < (slot.field.least ?? -Infinity))
    return refuse(heading, numberExpected(context, text, expectedOf(slot.field, recorded)), text);
  const own = context.unitOf(at) ?? recorded;
  if (own === recorded || !isVolumeUnit(own) || !isVolumeUnit(recorded)) return digits;
  return inVolumeUnits(litres(Number(digits), own), recorded).toFixed(decimalsIn(digits) + 2);
}

/** A date or time in a column, or why it is none. */
export function readWhenText(context: Context, at: number, text: string): Cell {
  const when = context.when(text);
  return 'text' in when ? when.text : refuse(context.heading(at, 'Date'), whenExpected(when), text);
}

/** A date and a time of day by itself, as one time. */
export function timeFrom(context: Context, slotId: string): Made['make'] {
  const dateAt = context.at(slotId);
  const dates = context.heading(dateAt, 'Date');
  const clocks = context.heading(context.at('@clock'), 'Time');
  return ([date = '', clock = '']) => {
    if (date === '' && clock === '') return '';
    const when = context.when(date);
    if (!('text' in when)) return refuse(dates, whenExpected(when), date);
    if (clock === '') return when.text;
    // A spreadsheet writes a whole date beside a time of day, or a time beside a date of midnight.
    const bare = /^(?:\S+[T\s])?(\d{1,2}:\d{2}.*)$/.exec(clock)?.[1] ?? clock;
    const read = readClock(bare);
    return read === null ? refuse(clocks, A_CLOCK, clock) : `${when.text.slice(0, 10)}T${read}`;
  };
}

/**
 * A result as reported: kept in its own words, but for decimal commas, which
 * the tables don't have.
 */
export function resultReader(context: Context, heading: string): Reader {
  const dress = { decimalComma: context.decimals === 'comma' };
  return remembering((text) => {
    if (context.decimals === null && /\d,\d/.test(text))
      return refuse(heading, 'an answer to which sign parts the decimals', text);
    const said = readReported(text, dress);
    if (said.kind === 'unreadable') return refuse(heading, said.expected ?? 'a result', text);
    if (context.decimals !== 'comma' || said.number === null) return text;
    return text.replace(/[-+−]?\d[\d.,]*/, (digits) => plainDigits(digits, dress) ?? digits);
  });
}

/** A limit: its number; blank for a dash or a word that says there is none. */
export function limitReader(context: Context, heading: string): Reader {
  const dress = { decimalComma: context.decimals === 'comma' };
  return remembering((text) => {
    if (context.decimals === null && /\d,\d/.test(text))
      return refuse(heading, 'an answer to which sign parts the decimals', text);
    const { kind, number } = readReported(text, dress);
    if (kind === 'blank') return '';
    if ((kind === 'number' || kind === 'less than') && number !== null) return number;
    return refuse(heading, numberExpected(context, text, 'a limit such as 0.5'), text);
  });
}
