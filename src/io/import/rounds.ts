import type { Ask, Cell } from './ask';
import type { Context } from './context';
import { dayOf } from './days';
import { whenExpected } from './readers';

/** A round to be added to the site's events. */
export type NewRound = { readonly id: string; readonly title: string };

/** Days without a reading that part two rounds (common practice, no source). */
const PARTS_ROUNDS = 14;

const MONTHS =
  'January February March April May June July August September October November December'.split(
    ' ',
  );

const ID = 'rounds';
const NAME = 'round name';
const DAY = 'round day';

/** Which round each row belongs to, and which rounds are new. */
export class Rounds {
  readonly made = new Map<string, NewRound>();
  private readonly eventAt: number | null;
  private readonly way: string | null;
  private readonly name: string;
  private readonly starts: readonly string[];

  /**
   * @param eventSlot  slot of a column that names the round
   * @param timeSlot  slot of the dates
   * @param usual  what the rounds are of: "Levels"
   */
  constructor(
    private readonly context: Context,
    eventSlot: string,
    private readonly timeSlot: string,
    usual: string,
  ) {
    this.eventAt = context.at(eventSlot);
    const days = this.eventAt === null ? daysIn(context, timeSlot) : [];
    this.starts = startsOf(days);
    const constant = context.constant(eventSlot);
    this.name = constant ?? (context.answer(NAME)?.trim() || usual);
    this.way = constant !== null ? 'one' : context.answer(ID);
    if (this.eventAt === null && constant === null) this.ask(days, usual);
  }

  /** Columns of the file a round is told by: its date, and its own where there is one. */
  columns(timeAt: number | null): readonly number[] {
    const own = this.eventAt === null ? [] : [this.eventAt];
    return timeAt === null ? own : [timeAt, ...own];
  }

  /** The round of a row, by what stands in those columns. */
  of(texts: readonly string[], hasTime: boolean): Cell {
    const { context, way } = this;
    const date = hasTime ? (texts[0] ?? '') : '';
    if (this.eventAt !== null) {
      const text = texts.at(-1) ?? '';
      if (text === '')
        return {
          column: context.heading(this.eventAt, 'Event'),
          expected: 'the round it belongs to',
          found: '',
        };
      return date === '' ? this.withoutDay(text) : this.named(text, text);
    }
    if (way === 'one')
      return date === '' ? this.withoutDay(this.name) : this.named(this.name, this.name);
    const when = context.when(date);
    if (!('text' in when))
      return {
        column: context.heading(context.at(this.timeSlot), 'Date'),
        expected: date === '' ? 'a date, to know the round by' : whenExpected(when),
        found: date,
      };
    return this.ofDay(dayOf(when.text));
  }

  private readonly byDay = new Map<string, Cell>();

  private ofDay(day: string): Cell {
    const before = this.byDay.get(day);
    if (before !== undefined) return before;
    const round = this.roundOf(day);
    this.byDay.set(day, round);
    return round;
  }

  private roundOf(day: string): Cell {
    const year = day.slice(0, 4);
    const month = `${MONTHS[Number(day.slice(5, 7)) - 1] ?? ''} ${year}`;
    switch (this.way) {
      case 'existing': {
        const covering = coveringEvents(this.context, day);
        const [only] = covering;
        return only !== undefined && covering.length === 1
          ? only
          : {
              column: 'Date',
              expected: 'a date within one round of the site',
              found: day,
            };
      }
      case 'year':
        return this.named(`${this.name} ${year}`, `${this.name} of ${year}`);
      case 'month':
        return this.named(`${this.name} ${day.slice(0, 7)}`, `${this.name}, ${month}`);
      case 'day':
        return this.named(`${this.name} ${day}`, `${this.name}, ${day}`);
      case 'gap': {
        const start = this.starts.findLast((each) => each <= day) ?? day;
        const alone = this.starts.filter((s) => s.slice(0, 7) === start.slice(0, 7)).length < 2;
        const label = alone ? start.slice(0, 7) : start;
        return this.named(`${this.name} ${label}`, `${this.name}, from ${start}`);
      }
      default:
        return { column: 'Date', expected: 'an answer to which round it belongs to', found: day };
    }
  }

  /** A round known by name alone: one of the site's, or one whose day a person says. */
  private withoutDay(id: string): Cell {
    const { context } = this;
    if (context.target.site.events.has(id)) return id;
    context.ask({
      id: DAY,
      question: 'Which day was the round?',
      why: `“${id}” is not on the site yet, and the file gives rows of it no date.`,
      choices: [],
      proposed: null,
      needed: true,
    });
    return this.day === null
      ? { column: 'Round', expected: 'the day of a round the site does not have', found: id }
      : this.named(id, id);
  }

  /** The day a person gave for rounds without dates. */
  get day(): string | null {
    const when = this.context.when(this.context.answer(DAY) ?? '');
    return 'text' in when ? dayOf(when.text) : null;
  }

  private named(id: string, title: string): string {
    if (!this.context.target.site.events.has(id) && !this.made.has(id))
      this.made.set(id, { id, title });
    return id;
  }

  private ask(days: readonly string[], usual: string): void {
    const { context } = this;
    const allKnown =
      days.length > 0 && days.every((day) => coveringEvents(context, day).length === 1);
    const years = new Set(days.map((day) => day.slice(0, 4))).size;
    const choices: Ask['choices'] = [
      ...(context.target.site.events.size > 0
        ? [{ value: 'existing', says: 'The rounds the site has, by date' }]
        : []),
      {
        value: 'gap',
        says: `A round wherever ${PARTS_ROUNDS} days pass without a reading: ${this.starts.length} of them`,
      },
      { value: 'one', says: 'One round for the whole file' },
      { value: 'year', says: `One a year: ${years} of them` },
      { value: 'month', says: 'One a month' },
      { value: 'day', says: 'One a day' },
    ];
    context.ask({
      id: ID,
      question: 'Which rounds do the rows belong to?',
      why:
        days.length === 0
          ? 'No column names a round, and no dates can be read yet.'
          : allKnown
            ? `No column names a round; every date falls within one round the site has.`
            : `No column names a round. The dates run from ${days[0] ?? ''} to ${days.at(-1) ?? ''}.`,
      choices,
      proposed: allKnown ? 'existing' : days.length > 0 ? 'gap' : null,
      needed: true,
    });
    context.ask({
      id: NAME,
      question: 'What are new rounds called?',
      why: `The day, month or year is added: “${usual} 2025-03”.`,
      choices: [],
      proposed: usual,
      needed: false,
    });
  }
}

function coveringEvents({ target }: Context, day: string): readonly string[] {
  const found: string[] = [];
  for (const { id, first_day, last_day } of target.site.events.values())
    if (first_day <= day && day <= last_day) found.push(id);
  return found;
}

/** The days of the file, each once, in order. */
function daysIn(context: Context, timeSlot: string): readonly string[] {
  const at = context.at(timeSlot);
  const days = new Set<string>();
  for (const text of at === null ? [] : context.texts([at])) {
    const when = context.when(text);
    if ('text' in when) days.add(dayOf(when.text));
  }
  return [...days].sort();
}

const MS_A_DAY = 86_400_000;

/** First days of the rounds that pauses part. */
function startsOf(days: readonly string[]): readonly string[] {
  return days.filter((day, i) => {
    const before = days[i - 1];
    return before === undefined || (Date.parse(day) - Date.parse(before)) / MS_A_DAY > PARTS_ROUNDS;
  });
}
