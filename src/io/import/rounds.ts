import type { Ask, Cell } from './ask';
import type { Context } from './context';
import { dayOf } from './days';
import { ADJOINS, eventsOfDays } from './event-days';
import { listed } from './listed';
import { whenExpected } from './reader';

/** An event to be added to the site's. */
export type NewRound = { readonly id: string; readonly title: string };

/** Days without a reading that part two events (common practice, no source). */
const PARTS_ROUNDS = 14;

/** What an event is called that levels and samples can share. */
const SHARED = 'Event';

const MONTHS =
  'January February March April May June July August September October November December'.split(
    ' ',
  );

const ID = 'rounds';
const NAME = 'round name';
const DAY = 'round day';

/** Which event each row belongs to, and which events are new. */
export class Rounds {
  readonly made = new Map<string, NewRound>();
  private readonly eventAt: number | null;
  private readonly way: string | null;
  private readonly name: string;
  private readonly starts: readonly string[];
  private readonly adjoining: ReadonlyMap<string, readonly string[]>;

  /**
   * @param eventSlot  slot of a column that names the event
   * @param timeSlot  slot of the dates
   * @param usual  what events made by the calendar are of: "Levels"
   */
  constructor(
    private readonly context: Context,
    eventSlot: string,
    private readonly timeSlot: string,
    usual: string,
  ) {
    this.eventAt = context.at(eventSlot);
    const days = this.eventAt === null ? daysIn(context, timeSlot) : [];
    this.adjoining = eventsOfDays(days, context.target.site.events.values());
    this.starts = startsOf(days.filter((day) => (this.adjoining.get(day) ?? []).length === 0));
    const constant = context.constant(eventSlot);
    this.way = constant !== null ? 'one' : context.answer(ID);
    const isShared = this.way === 'gap' || this.way === 'existing' || this.way === null;
    const usually = isShared ? SHARED : usual;
    this.name = constant ?? (context.answer(NAME)?.trim() || usually);
    if (this.eventAt === null && constant === null) this.ask(days, usually);
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
          expected: 'the event it belongs to',
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
        expected: date === '' ? 'a date, to know the event by' : whenExpected(when),
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
        const [only, ...more] = this.adjoining.get(day) ?? [];
        if (only === undefined) return this.afterGap(day);
        return more.length === 0
          ? only
          : {
              column: 'Date',
              expected: `a date of one event of the site, not of ${[only, ...more].join(' and ')}`,
              found: day,
            };
      }
      case 'year':
        return this.named(`${this.name} ${year}`, `${this.name} of ${year}`);
      case 'month':
        return this.named(`${this.name} ${day.slice(0, 7)}`, `${this.name}, ${month}`);
      case 'day':
        return this.named(`${this.name} ${day}`, `${this.name}, ${day}`);
      case 'gap':
        return this.afterGap(day);
      default:
        return { column: 'Date', expected: 'an answer to which event it belongs to', found: day };
    }
  }

  /** The new event a day belongs to, where pauses part the events. */
  private afterGap(day: string): string {
    const start = this.starts.findLast((each) => each <= day) ?? day;
    const alone = this.starts.filter((s) => s.slice(0, 7) === start.slice(0, 7)).length < 2;
    const label = alone ? start.slice(0, 7) : start;
    const month = `${MONTHS[Number(start.slice(5, 7)) - 1] ?? ''} ${start.slice(0, 4)}`;
    return this.named(`${this.name} ${label}`, alone ? `${this.name}, ${month}` : `${this.name}, from ${start}`); // prettier-ignore
  }

  /** An event known by name alone: one of the site's, or one whose day a person says. */
  private withoutDay(id: string): Cell {
    const { context } = this;
    if (context.target.site.events.has(id)) return id;
    context.ask({
      id: DAY,
      question: 'Which day was the event?',
      why: `“${id}” is not on the site yet, and the file gives rows of it no date.`,
      choices: [],
      proposed: null,
      needed: true,
    });
    return this.day === null
      ? { column: 'Event', expected: 'the day of an event the site does not have', found: id }
      : this.named(id, id);
  }

  /** The day a person gave for events without dates. */
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
    const { context, adjoining } = this;
    const known = days.filter((day) => adjoining.has(day));
    const isAmbiguous = known.some((day) => (adjoining.get(day) ?? []).length > 1);
    const years = new Set(days.map((day) => day.slice(0, 4))).size;
    const fresh = this.starts.length;
    const choices: Ask['choices'] = [
      ...(context.target.site.events.size > 0
        ? [
            {
              value: 'existing',
              says:
                known.length === days.length || fresh === 0
                  ? 'The site’s events, by date'
                  : `The site’s events, and ${fresh === 1 ? 'a new one' : `${fresh} new ones`}`,
            },
          ]
        : []),
      {
        value: 'gap',
        says: `Parted by pauses of ${PARTS_ROUNDS} days: ${counted(startsOf(days).length)}`,
      },
      { value: 'one', says: 'One event for the whole file' },
      { value: 'year', says: `One a year: ${counted(years)}` },
      { value: 'month', says: 'One a month' },
      { value: 'day', says: 'One a day' },
    ];
    const isKnown = known.length > 0 && !isAmbiguous;
    context.ask({
      id: ID,
      question: 'Which event do the rows belong to?',
      why: days.length === 0 ? 'No column names an event, and no dates can be read yet.' : `No column names an event. The dates run from ${days[0] ?? ''} to ${days.at(-1) ?? ''}.${this.knownSays(known, days.length)}`, // prettier-ignore
      choices,
      proposed: isKnown ? 'existing' : days.length > 0 ? 'gap' : null,
      // That a pause parts two events is a habit: nothing in the file says it.
      usual: !isKnown,
      needed: true,
    });
    if (this.way !== 'existing' || fresh > 0)
      context.ask({
        id: NAME,
        question: 'What are new events called?',
        why: `The day, month or year is added: “${usual} 2025-03”.`,
        choices: [],
        proposed: usual,
        usual: true,
        needed: false,
      });
  }

  /** Which of the days fall within, or next to, events of the site. */
  private knownSays(known: readonly string[], all: number): string {
    if (known.length === 0) return '';
    const ids = [...new Set(known.flatMap((day) => this.adjoining.get(day) ?? []))];
    const { events } = this.context.target.site;
    const beyond = known.filter((day) => {
      const event = events.get(this.adjoining.get(day)?.[0] ?? '');
      return event !== undefined && (day < event.first_day || day > event.last_day);
    });
    const days = known.length === all ? 'All days lie' : `${known.length} of ${all} days lie`;
    const widened = beyond.length > 0 ? ' An event is widened to the days that adjoin it.' : '';
    return ` ${days} within ${ADJOINS} days of ${listed(ids, 3)}.${widened}`;
  }
}

const counted = (events: number) => `${events} ${events === 1 ? 'event' : 'events'}`;

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
