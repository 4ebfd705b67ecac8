import type { Grid } from '../../domain/grid';
import type { DataPackage } from '../../domain/site/data-package';
import type { Site } from '../../domain/site/site';
import { answerTo, type Answers, type Ask, type Cell } from './ask';
import { DayEvidence, whenReader, type DayRules, type When } from './days';
import { slotNamed, slotTitle, type Slot } from './forms';
import type { Mapping } from './mapping';
import { DecimalEvidence, type Decimals } from './numbers';
import type { SourceTable } from './source-table';

/** The site rows are taken into. */
export type Target = {
  readonly package: DataPackage;
  readonly site: Site;
  readonly grid: Grid;
};

/** More questions than this nobody answers; the rest of the rows are refused with their reason. */
const MOST_ASKS = 60;

/** What a file is read with: its mapping, what was answered, and what is still to be asked. */
export class Context {
  readonly decimals: Decimals;
  /** Reads the dates of the file by what was settled about them. */
  readonly when: (text: string) => When;
  readonly said: string[] = [];
  private readonly asked = new Map<string, Ask>();
  private readonly bySlot = new Map<string, number>();
  private readonly once = new Set<string>();

  constructor(
    readonly source: SourceTable,
    readonly mapping: Mapping,
    readonly answers: Answers,
    readonly target: Target,
  ) {
    mapping.columns.forEach((use, at) => {
      if (use.use === 'slot' && !this.bySlot.has(use.slot)) this.bySlot.set(use.slot, at);
    });
    this.decimals = this.tellDecimals();
    this.when = whenReader(this.tellDays());
  }

  /** The column of the file that fills a slot; null where none does. */
  at(slot: string): number | null {
    return this.bySlot.get(slot) ?? null;
  }

  has(...slots: readonly string[]): boolean {
    return slots.some((slot) => this.bySlot.has(slot) || this.constant(slot) !== null);
  }

  /** What a person said a slot is in every row. */
  constant(slot: string): string | null {
    const answer = this.answer(`is ${slot}`)?.trim() ?? '';
    return answer === '' ? null : answer;
  }

  answer(id: string): string | null {
    return answerTo(this.answers, id);
  }

  slot(id: string): Slot {
    const slot = slotNamed(this.mapping.form, id);
    if (!slot) throw new Error(`the form ${this.mapping.form} has no slot ${id}`);
    return slot;
  }

  heading(at: number | null, otherwise: string): string {
    const heading = at === null ? '' : (this.source.headings[at] ?? '');
    return heading === '' ? otherwise : heading;
  }

  /** The unit a column's heading names. */
  unitOf(at: number | null): string | null {
    const use = at === null ? undefined : this.mapping.columns[at];
    return use?.use === 'slot' ? use.unit : null;
  }

  ask(ask: Ask): void {
    if (!this.asked.has(ask.id) && this.asked.size < MOST_ASKS) this.asked.set(ask.id, ask);
  }

  get asks(): readonly Ask[] {
    return [...this.asked.values()];
  }

  say(sentence: string): void {
    if (this.once.has(sentence) || this.said.length > 200) return;
    this.once.add(sentence);
    this.said.push(sentence);
  }

  /** Ask what a slot is in every row, where no column fills it. */
  askConstant(
    id: string,
    proposed: string | null = null,
    why?: string,
    needed = true,
    usual = why === undefined,
  ): void {
    // prettier-ignore
    const { field, says } = this.slot(id);
    this.ask({
      id: `is ${id}`,
      question: QUESTIONS[id] ?? `${slotTitle(this.slot(id))}: the same in every row?`,
      why: why ?? `No column of the file says it. ${says}.`,
      choices: (field.choices ?? []).map((choice) => ({ value: choice, says: choice })),
      proposed,
      usual,
      needed,
    });
  }

  /** Every distinct text of some columns, block by block. */
  *texts(columns: readonly number[]): Generator<string> {
    for (const block of this.source.table.blocks)
      for (const at of columns) yield* block.columns[at]?.dictionary ?? [];
  }

  private columnsOf(is: (slot: Slot) => boolean): readonly number[] {
    return this.mapping.columns.flatMap((use, at) => {
      const slot = use.use === 'slot' ? slotNamed(this.mapping.form, use.slot) : null;
      return slot && is(slot) ? [at] : [];
    });
  }

  private tellDecimals(): Decimals {
    const evidence = new DecimalEvidence();
    const numeric = this.columnsOf(
      ({ id, field }) =>
        field.kind === 'number' ||
        field.kind === 'length' ||
        field.kind === 'distance' ||
        field.kind === 'volume' ||
        NUMERIC_TEXTS.has(id),
    );
    for (const text of this.texts(numeric)) evidence.see(text);
    const { ask, said, settled } = evidence;
    if (said !== null) this.say(said);
    if (ask) this.ask(ask);
    const answer = this.answer('decimals');
    return answer === 'point' || answer === 'comma' ? answer : settled;
  }

  private tellDays(): DayRules {
    const evidence = new DayEvidence();
    const dated = this.columnsOf(({ field }) => field.kind === 'day' || field.kind === 'time');
    for (const text of this.texts(dated)) evidence.see(text);
    for (const ask of evidence.asks) this.ask(ask);
    if (evidence.daysAlone)
      this.say('Every time beside a date is midnight: the dates are taken as days alone.');
    const answered = <T extends string>(id: string, values: readonly T[]): T | null => {
      const answer = this.answer(id);
      return values.find((value) => value === answer) ?? null;
    };
    return {
      order: answered('day order', ['day first', 'month first']),
      century: answered('century', ['2000', '1900', 'nearest']),
      serial: answered('serial', ['1900', '1904', 'no']),
      zone: answered('zone', ['local', 'no']),
      daysAlone: evidence.daysAlone,
    };
  }
}

/** What to ask where no column says it. */
const QUESTIONS: Readonly<Record<string, string>> = {
  'locations.kind': 'What are these locations?',
  'locations.status': 'How far have they got?',
  'locations.ground_how': 'How is the ground elevation known?',
  'water_levels.status': 'What state was the water in?',
  '@read_status': 'What state was the water in?',
  'samples.id': 'What is the sample called?',
  'samples.kind': 'What are these samples for?',
  'results.unit': 'Which unit are the results in?',
  'results.analyte': 'Which analyte is it?',
  'screening_levels.set': 'What is this set of levels called?',
  'screening_levels.unit': 'Which unit are the levels in?',
  'features.kind': 'What is drawn here?',
  'attempts.outcome': 'How did the attempts end?',
};

/** Slots that hold numbers as texts. */
const NUMERIC_TEXTS = new Set([
  'results.value',
  'results.detection_limit',
  'results.reporting_limit',
  'screening_levels.value',
]);

/** A cell as it stands. */
export const asWritten = ([text = '']: readonly string[]): Cell => text;
