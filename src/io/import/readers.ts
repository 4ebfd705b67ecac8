import { plainDigits, readReported } from '../../domain/lab/reported';
import { expectedOf } from '../../domain/site/read-cell';
import { decimalsIn, unitText } from '../../domain/show';
import {
  isLengthUnit,
  isVolumeUnit,
  litres,
  inVolumeUnits,
  METRES_PER,
  type LengthUnit,
} from '../../domain/units';
import type { Cell, Refusal } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { A_CLOCK, A_DAY, readClock, type When } from './days';
import { columnOf, slotTitle, type Slot } from './forms';
import { lengthUnitNamed, readHeading } from './heading';
import { matrixReader } from './matrix-words';
import { CHOICE_WORDS, CODES_UNDER } from './synonyms';

/** A text to a cell, under one heading. */
export type Reader = (text: string) => Cell;

/** Cells repeat from block to block: past this many different ones they are no longer remembered. */
const MOST_KEPT = 100_000;

function remembering(read: Reader): Reader {
  const kept = new Map<string, Cell>();
  return (text) => {
    const before = kept.get(text);
    if (before !== undefined) return before;
    const cell = read(text);
    if (kept.size < MOST_KEPT) kept.set(text, cell);
    return cell;
  };
}

const refuse = (column: string, expected: string, found: string): Refusal => ({
  column,
  expected,
  found,
});

const DECIMALS_EXPECTED = {
  point: 'a number such as 0.5 or 1,200',
  comma: 'a number such as 0,5 or 1.200',
} as const;

/** No length or volume is this large, and in another unit it would be past any number. */
const BEYOND = 1e300;

/** Digits with a decimal point; null where the text is no number, or its comma is not settled. */
export function digitsOf(text: string, { decimals }: Context): string | null {
  if (decimals === null && text.includes(',')) return null;
  const digits = plainDigits(text, { decimalComma: decimals === 'comma' });
  return digits !== null && Math.abs(Number(digits)) < BEYOND ? digits : null;
}

/** What a number should have looked like. */
export const numberExpected = ({ decimals }: Context, text: string, otherwise: string): string =>
  decimals === null && text.includes(',')
    ? 'an answer to which sign parts the decimals'
    : text.includes(',')
      ? DECIMALS_EXPECTED[decimals ?? 'point']
      : otherwise;

const NEEDS = {
  order: 'an answer to whether day or month comes first',
  century: 'an answer to which century the years are in',
  serial: 'an answer to whether these are day numbers',
  zone: 'an answer to whether times are local',
} as const;

/** What a date should have looked like, or which question is open. */
export const whenExpected = (when: When): string =>
  'needs' in when ? NEEDS[when.needs] : 'expected' in when ? when.expected : A_DAY;

/** The unit the cells of a column are recorded in at the site. */
export function recordedUnit(context: Context, { table, field, id }: Slot): string | null {
  const { columnUnits, settings } = context.target.package;
  const stated = columnUnits[table]?.[columnOf({ id } as Slot) ?? ''];
  if (field.kind === 'length') return stated ?? settings.verticalUnit;
  if (field.kind === 'distance') return stated ?? settings.grid.unit;
  if (field.kind === 'volume') return stated ?? settings.volumeUnit;
  return field.unit ?? null;
}

/** A number turned from one unit into another, with two decimals more than it had. */
export function converted(digits: string, from: LengthUnit, to: LengthUnit): string {
  if (from === to) return digits;
  const value = (Number(digits) * METRES_PER[from]) / METRES_PER[to];
  return value.toFixed(Math.min(decimalsIn(digits) + 2, 15));
}

const ASK_LENGTH = 'length unit';

/** The unit of a column of lengths: in its heading, or as a person answered; asked where neither. */
function unitOfColumn(context: Context, slot: Slot, at: number): LengthUnit | null {
  const inHeading = context.unitOf(at);
  if (inHeading !== null && isLengthUnit(inHeading)) return inHeading;
  const recorded = recordedUnit(context, slot) ?? '';
  const heading = context.heading(at, slot.id);
  // A table of ours has no units in its headings: they stand in its descriptor.
  if (heading.toLowerCase() === columnOf(slot) && isLengthUnit(recorded)) {
    context.say(
      `Columns headed as the site’s own tables are taken in the site’s units (${heading} in ${unitText(recorded)}).`,
    );
    return recorded;
  }
  if (slot.field.kind === 'distance') {
    if (!isLengthUnit(recorded)) return null;
    context.say(`Distances are taken in the unit of the site’s grid, ${unitText(recorded)}.`);
    return recorded;
  }
  const named = readHeading(heading).unit;
  const odd = named === null || lengthUnitNamed(named) !== null ? null : named;
  context.ask({
    id: ASK_LENGTH,
    question: 'Which unit are the depths and elevations in?',
    why: `“${heading}” ${odd === null ? 'does not name its unit' : `names “${odd}”, which is no unit of length known here`}, and no column does. The site records in ${unitText(isLengthUnit(recorded) ? recorded : 'm')}.`,
    choices: [
      { value: 'ft', says: 'Feet' },
      { value: 'm', says: 'Metres' },
      { value: 'us-ft', says: 'US survey feet' },
    ],
    proposed: isLengthUnit(recorded) ? recorded : null,
    usual: true,
    needed: true,
  });
  const answer = context.answer(ASK_LENGTH) ?? '';
  return isLengthUnit(answer) ? answer : null;
}

/**
 * A column of lengths, put into the unit the site records it in. Where that
 * changes it, the column `…_as_given` beside it keeps what was written.
 */
export function lengthColumns(context: Context, slot: Slot, column: string): Made[] {
  const at = context.at(slot.id);
  const { field } = slot;
  const recorded = recordedUnit(context, slot) ?? '';
  if (!isLengthUnit(recorded)) return [];
  const constant = context.constant(slot.id);
  if (at === null) return constant === null ? [] : [{ column, from: [], make: () => constant }];
  const heading = context.heading(at, slotTitle(slot));
  const unitAt = field.kind === 'length' ? context.at('@unit') : null;
  const own = unitAt === null ? unitOfColumn(context, slot, at) : null;
  const unitFor = (text: string): LengthUnit | null =>
    unitAt === null ? own : lengthUnitNamed(text);

  const read = (text: string, unitText_: string): Cell => {
    if (text === '') return '';
    const digits = digitsOf(text, context);
    if (digits === null)
      return refuse(
        heading,
        numberExpected(context, text, expectedOf(field, own ?? recorded)),
        text,
      );
    const unit = unitFor(unitText_);
    if (unit === null)
      return unitAt === null
        ? refuse(heading, 'an answer to which unit it is in', text)
        : refuse(context.heading(unitAt, 'unit'), 'a unit of length: ft, m or us-ft', unitText_);
    if (field.least !== undefined && Number(digits) < field.least)
      return refuse(heading, expectedOf(field, unit), text);
    return converted(digits, unit, recorded);
  };
  const from = unitAt === null ? [at] : [at, unitAt];
  const made: Made = { column, from, make: ([text = '', unit = '']) => read(text, unit) };
  const changes = unitAt !== null || (own !== null && own !== recorded);
  if (!changes) return [made];
  if (own !== null)
    context.say(
      `${heading} is in ${unitText(own)} and the site records it in ${unitText(recorded)}: it is converted, and ${column}_as_given keeps what was written.`,
    );
  return [
    made,
    {
      column: `${column}_as_given`,
      from,
      uncompared: true,
      make: ([text = '', unitWord = '']) => {
        const unit = unitFor(unitWord);
        return text === '' || unit === null || unit === recorded ? '' : `${text} ${unit}`;
      },
    },
  ];
}

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

const simple = (text: string) =>
  text
    .toLowerCase()
    .replace(/[\s._-]+/g, ' ')
    .trim();

const choiceWords = new Map<string, ReadonlyMap<string, string>>();

/** Every way a choice is written, by slot. */
function wordsFor(slot: string, choices: readonly string[]): ReadonlyMap<string, string> {
  const before = choiceWords.get(slot);
  if (before) return before;
  const words = new Map<string, string>();
  const given = Object.hasOwn(CHOICE_WORDS, slot) ? (CHOICE_WORDS[slot] ?? {}) : {};
  for (const [choice, list] of Object.entries(given))
    for (const word of list.split(',')) words.set(simple(word), choice);
  for (const choice of choices) words.set(simple(choice), choice);
  choiceWords.set(slot, words);
  return words;
}

/** More codes than this are not a list of choices. */
const MOST_CODES = 25;

/** Texts that files often have as a code of one letter. */
const CODED = new Set(['screens.zone']);

/** Under a heading of codes: what a person said a code stands for, else the code itself. */
function codeReader(context: Context, slot: Slot, heading: string): Reader {
  let codes = 0;
  return remembering((text) => {
    if (text === '') return '';
    const answered = context.answer(`${slot.id} ${text}`)?.trim() ?? '';
    if (++codes <= MOST_CODES)
      context.ask({
        id: `${slot.id} ${text}`,
        question: `What does “${text.slice(0, 60)}” under ${heading} stand for?`,
        why: `${slot.says}. Without an answer the code itself is kept.`,
        choices: [],
        proposed: null,
        needed: false,
      });
    return answered === '' ? text : answered;
  });
}

/** A choice by its name, a listed word, the codes under its heading, or what a person said it means. */
function choiceReader(context: Context, slot: Slot, heading: string): Reader {
  const choices = slot.field.choices ?? [];
  const words = wordsFor(slot.id, choices);
  const codes = CODES_UNDER[readHeading(heading).whole] ?? {};
  let unknown = 0;
  return (text) => {
    if (text === '') return '';
    const code = Object.hasOwn(codes, text.toLowerCase()) ? codes[text.toLowerCase()] : undefined;
    const known = code ?? words.get(simple(text));
    if (known !== undefined) return known;
    if (++unknown <= MOST_CODES)
      context.ask({
        id: `${slot.id} ${text}`,
        question: `What does “${text.slice(0, 60)}” under ${heading} mean?`,
        why: `${slot.says}. It is none of the words known here.`,
        choices: [
          ...choices.map((choice) => ({ value: choice, says: choice })),
          ...(slot.field.required ? [] : [{ value: '', says: 'leave it blank' }]),
        ],
        proposed: null,
        needed: true,
      });
    const answered = context.answer(`${slot.id} ${text}`);
    if (answered !== null && (answered === '' || choices.includes(answered))) return answered;
    return refuse(heading, `one of ${choices.join(', ')}`, text);
  };
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
