import { sampleNamed } from '../../domain/lab/custody-site';
import type { Ask, Cell } from './ask';
import type { Context } from './context';
import { BLANKS, kindOfName } from './control-samples';
import { dayOf } from './days';
import { listed } from './listed';
import { dayIn, namesInFile, type NamesInFile } from './names-in-file';
import type { Places } from './places';

const BY_NAME = 'samples are locations';
const TWINS = 'second numbers';
const UNKNOWN = 'unknown';
const REFUSE = 'refuse';

/** More names of one sort than this are asked about together. */
const MOST_APART = 4;

/** Parents offered for a duplicate. */
const MOST_PARENTS = 200;

/** A sample as its name tells it; a refusal where that is not settled. */
export type Told = {
  readonly id: Cell;
  readonly screen: Cell;
  readonly kind: Cell;
  /** The sample a duplicate repeats; blank where that is not known. */
  readonly parent: string;
  /** What a duplicate was called on its bottles. */
  readonly alias: string;
  readonly labNumber: string;
};

/**
 * Samples of a laboratory file without a column of locations: their names often
 * are the locations, beside duplicates and blanks that have names of their own.
 * What a name means is asked, and the name is kept.
 */
export class SampleNames {
  private readonly heading: string;
  private readonly numbers: NamesInFile['numbers'];
  private readonly days: NamesInFile['days'];
  private readonly told = new Map<string, Told>();
  /** The location or screen of the site a name means, by name. */
  private readonly placed = new Map<string, string>();
  private readonly controls: string[] = [];
  private readonly others: string[] = [];

  constructor(
    private readonly context: Context,
    private readonly places: Places,
    private readonly nameAt: number,
  ) {
    this.heading = context.heading(nameAt, 'Sample');
    ({ numbers: this.numbers, days: this.days } = namesInFile(context, nameAt));
    const { samples } = context.target.site;
    for (const name of this.numbers.keys()) {
      if (sampleNamed(samples, name) !== null) continue;
      const place = places.placeNamed(name);
      // "MW-3 DUP" begins with a location, and is no field sample of it.
      const isCheck = place === null || (place.length < name.length && kindOfName(name) !== null);
      if (place !== null && !isCheck) this.placed.set(name, place);
      else if (this.kindAt === null && kindOfName(name) !== null) this.controls.push(name);
      else this.others.push(name);
    }
    this.askLocations();
    this.askKinds();
    this.askTwins();
  }

  private get kindAt(): number | null {
    return this.context.at('samples.kind');
  }

  /** Columns a sample is told by: name, date, number of the laboratory. */
  get from(): readonly number[] {
    const { context } = this;
    const others = [context.at('samples.time'), context.at('samples.lab_number')];
    return [this.nameAt, ...others.flatMap((at) => at ?? [])];
  }

  /** @param kind  as its column says; null where the file has none */
  tell(texts: readonly string[], kind: Cell | null): Told {
    const key = JSON.stringify([texts, kind]);
    const before = this.told.get(key);
    if (before) return before;
    const { context } = this;
    const [name = '', ...others] = texts;
    const date = context.at('samples.time') === null ? '' : (others.shift() ?? '');
    const told = this.of(name, date, others[0] ?? '', kind);
    this.told.set(key, told);
    return told;
  }

  private askLocations(): void {
    const { placed, others, controls, heading } = this;
    if (placed.size + others.length === 0) return;
    const all = this.numbers.size;
    const beside = [...controls, ...others];
    const rest = beside.length > 0 ? ` The others: ${listed(beside, 4)}.` : '';
    this.context.ask({
      id: BY_NAME,
      question: `Is the location of each sample read from ${heading}?`,
      why:
        placed.size === 0
          ? `The file has no column of locations, and none of its ${all} names (${listed(others, 4)}) is a location of the site. If they are, take the file of locations first.`
          : `The file has no column of locations. ${placed.size} of ${all} names are locations of the site: ${listed([...placed.keys()], 6)}.${rest}`,
      choices: [
        { value: 'yes', says: placed.size === 0 ? 'Yes: they are locations the site does not have yet' : 'Yes, as field samples' }, // prettier-ignore
        { value: 'no', says: 'No: refuse their rows' },
      ],
      proposed: placed.size > 0 && placed.size >= others.length ? 'yes' : null,
      needed: true,
    });
  }

  private askKinds(): void {
    if (this.kindAt !== null) return;
    const isFew = this.placed.size > 0 && this.others.length <= MOST_APART;
    for (const name of [...this.controls, ...(isFew ? this.others : [])]) {
      const proposed = kindOfName(name);
      this.context.ask({
        id: `kind of sample ${name}`,
        question: `What is “${name.slice(0, 60)}”?`,
        why: `It is no location of the site.${proposed === null ? '' : ' Its name speaks for the answer proposed.'} The name is kept.`,
        choices: [
          { value: 'field duplicate', says: 'a field duplicate' },
          { value: 'trip blank', says: 'a trip blank' },
          { value: 'equipment blank', says: 'an equipment blank' },
          { value: 'field blank', says: 'a field blank' },
          {
            value: 'field sample',
            says: 'a field sample of a location the site does not have yet',
          },
          { value: REFUSE, says: 'something else: refuse its rows' },
        ],
        proposed,
        needed: true,
      });
      if (this.context.answer(`kind of sample ${name}`) === 'field duplicate') this.askParent(name);
    }
  }

  private askParent(name: string): void {
    const begins = this.places.placeNamed(name) ?? '';
    const proposed = this.placed.has(begins) ? begins : UNKNOWN;
    this.context.ask({
      id: `parent of ${name}`,
      question: `Which sample does “${name.slice(0, 60)}” repeat?`,
      why: 'A blind duplicate’s parent is in the field notes. Until it is told, in Tables under Samples, the duplicate is kept without a location.', // prettier-ignore
      choices: [{ value: UNKNOWN, says: 'not known yet' }, ...this.parentsFor(name)],
      proposed,
      usual: proposed === UNKNOWN,
      needed: false,
    });
  }

  /** The samples a duplicate may repeat: those of its day first, the others with theirs. */
  private parentsFor(name: string): Ask['choices'] {
    const days = this.days.get(name) ?? new Set();
    const all = [...this.placed.keys()];
    const isOfItsDay = (each: string) => [...(this.days.get(each) ?? [])].some((day) => days.has(day)); // prettier-ignore
    const near = all.filter(isOfItsDay);
    const far = all.filter((each) => !isOfItsDay(each));
    const dayOfEach = (each: string) => listed([...(this.days.get(each) ?? [])], 2);
    return [
      ...near.map((each) => ({ value: each, says: `${each}, sampled the same day` })),
      ...far.map((each) => ({ value: each, says: dayOfEach(each) === '' ? each : `${each}, sampled ${dayOfEach(each)}` })), // prettier-ignore
    ].slice(0, MOST_PARENTS);
  }

  private get twins(): readonly (readonly [
    name: string,
    first: string,
    others: readonly string[],
  ])[] {
    return [...this.numbers].flatMap(([name, numbers]) => {
      const [first = '', ...others] = [...numbers].filter(Boolean);
      return others.length > 0 && this.isPlace(name) ? [[name, first, others] as const] : [];
    });
  }

  private readonly isPlace = (name: string) => this.placed.has(name);

  private askTwins(): void {
    const { twins } = this;
    const choices: Ask['choices'] = [
      { value: 'same', says: 'the same sample, in another bottle' },
      { value: 'field duplicate', says: 'a field duplicate of the first' },
      { value: 'field sample', says: 'another field sample there' },
      { value: REFUSE, says: 'not known: refuse its rows' },
    ];
    const ask = (id: string, question: string, why: string) =>
      this.context.ask({ id, question, why, choices, proposed: null, needed: true });
    if (twins.length > MOST_APART)
      ask(TWINS, 'What are samples of one name under a second number of the laboratory?', `${listed(twins.map(([name]) => name))} have more than one.`); // prettier-ignore
    else
      for (const [name, first, others] of twins)
        for (const other of others)
          ask(
            `second number ${other}`,
            `What is ${other}, the laboratory’s second sample called “${name}”?`,
            `The laboratory has “${name}” twice, as ${first} and as ${other}.`,
          );
  }

  private twin(name: string, number: string): { first: string; is: string | null } | null {
    const [first = ''] = [...(this.numbers.get(name) ?? [])].filter(Boolean);
    if (number === '' || number === first || !this.isPlace(name)) return null;
    const { context } = this;
    return { first, is: context.answer(`second number ${number}`) ?? context.answer(TWINS) };
  }

  private of(name: string, date: string, number: string, kind: Cell | null): Told {
    const { context, heading } = this;
    const refused = (expected: string): Told => {
      const cell: Cell = { column: heading, expected, found: name };
      return { id: cell, screen: '', kind: '', parent: '', alias: '', labNumber: number };
    };
    if (name === '') return refused('the name of the sample');
    const known = sampleNamed(context.target.site.samples, name);
    const own = { parent: '', alias: '', labNumber: number };
    // A sample the site has keeps its kind and its screen: the file says neither.
    if (known !== null) return { ...own, id: known, screen: '', kind: kind ?? '' };
    const said = kind ?? context.constant('samples.kind') ?? this.kindByName(name);
    if (said === null) return refused('an answer to what it is');
    if (said === REFUSE) return refused('a sample of the site: its rows are left out');
    const id = this.dated(name, date);
    if (typeof said === 'string' && BLANKS.has(said)) return { ...own, id, screen: '', kind: said };
    if (said === 'field duplicate' && !this.isPlace(name)) {
      const parent = context.answer(`parent of ${name}`) ?? UNKNOWN;
      return parent === UNKNOWN
        ? { ...own, id, screen: '', kind: said, alias: name }
        : { ...own, id, screen: this.screen(parent), kind: said, alias: name, parent: this.repeated(parent, date) }; // prettier-ignore
    }
    if (context.answer(BY_NAME) !== 'yes')
      return refused('an answer to whether the location is read from it');
    const screen = this.screen(name);
    const twin = this.twin(name, number);
    if (!twin) return { ...own, id, screen, kind: said };
    switch (twin.is) {
      case 'same':
        return { ...own, id, screen, kind: said, labNumber: twin.first };
      case 'field duplicate':
        return { ...own, id: `${id} ${number}`, screen, kind: twin.is, parent: id };
      case 'field sample':
        return { ...own, id: `${id} ${number}`, screen, kind: said };
      default:
        return refused(
          twin.is === null
            ? `an answer to what ${number} is, its second`
            : `one sample of this name: ${number} is its second`,
        );
    }
  }

  /** What a name was said to be: places are field samples, the others as a person answered. */
  private kindByName(name: string): string | null {
    if (this.isPlace(name)) return 'field sample';
    const answer = this.context.answer(`kind of sample ${name}`);
    if (answer !== null) return answer;
    const isAsked = this.controls.includes(name) || (this.placed.size > 0 && this.others.length <= MOST_APART); // prettier-ignore
    return isAsked ? null : 'field sample';
  }

  private screen(name: string): Cell {
    return this.places.screen(this.placed.get(name) ?? name, this.heading);
  }

  /** The sample of a name that a duplicate of a date repeats: that of its day, else that of the only day there is. */
  private repeated(parent: string, date: string): string {
    const days = this.days.get(parent) ?? new Set<string>();
    const [only] = days;
    const isOther = days.size === 1 && only !== dayIn(this.context, date);
    return this.dated(parent, isOther ? (only ?? date) : date);
  }

  /** A name with the day, since the next event's bottles bear the same; a name that says more than its location stays. */
  private dated(name: string, date: string): string {
    const when = this.context.when(date);
    const place = this.placed.get(name);
    const isWhole = place === undefined || place.length >= name.length;
    return 'text' in when && isWhole ? `${place ?? name} ${dayOf(when.text)}` : name;
  }
}

/** Whether samples are told by their names alone: the file has a column of names, and none of locations. */
export const areToldByName = (context: Context): boolean =>
  context.at('samples.id') !== null &&
  context.at('samples.screen') === null &&
  context.constant('samples.screen') === null;
