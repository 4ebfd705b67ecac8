import type { Cell, Refusal } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { coordinateColumns } from './coordinates';
import { KindGroups } from './kinds';
import { listed } from './listed';
import type { Places } from './places';
import type { Part, Plan } from './plan';
import { keptColumns, keyOf, missing } from './plan-common';
import { lengthColumns } from './length-columns';
import { readShot, type Shot } from './survey-shots';

const READ_SO = 'survey shots';
const BARE = 'survey bare';
const ORDER = 'survey order';

type Meaning = 'casing' | 'ground' | 'place';

/**
 * A surveyor's file of shots, several of which may be of one location: each
 * gives its place, the ground there or the mark levels are read from.
 */
export function planSurvey(context: Context, places: Places): Plan {
  return new Survey(context, places).plan();
}

class Survey {
  private readonly shotAt: number;
  private readonly nameAt: number | null;
  private readonly heading: string;
  private readonly withCasing = new Set<string>();
  private readonly withGround = new Set<string>();
  private readonly bare = new Set<string>();
  private readonly kinds: KindGroups;

  constructor(
    private readonly context: Context,
    private readonly places: Places,
  ) {
    this.shotAt = context.at('@shot') ?? 0;
    this.nameAt = context.at('locations.id');
    this.heading = context.heading(this.shotAt, 'Description');
    for (const { name, mark } of this.shots()) {
      if (name === '') continue;
      if (mark === null) this.bare.add(name);
      else (mark === 'casing' ? this.withCasing : this.withGround).add(name);
    }
    this.ask();
    const { locations } = context.target.site;
    const fresh = [...this.withCasing, ...this.withGround, ...this.bare].filter((name) => !locations.has(name)); // prettier-ignore
    this.kinds = new KindGroups(context, fresh, (names) => {
      const cased = names.filter((name) => this.withCasing.has(name));
      const of = cased.length === names.length ? 'all of them' : `${cased.length} of them`;
      return cased.length === 0
        ? null
        : { kind: 'monitoring well', why: `The file has a shot of the casing of ${of}.` };
    });
  }

  /** The distinct shots of the file: by description, and by point where a description is a mark alone. */
  private *shots(): Generator<Shot> {
    const { shotAt, nameAt } = this;
    for (const { columns, size } of this.context.source.table.blocks)
      for (let i = 0; i < size; i++) {
        const text = (at: number | null) => {
          const column = at === null ? undefined : columns[at];
          return (column?.dictionary[column.codes[i] ?? -1] ?? '').trim();
        };
        yield this.shot([text(shotAt), text(nameAt)]);
      }
  }

  /** Columns a shot is told by. */
  private get from(): readonly number[] {
    return this.nameAt === null ? [this.shotAt] : [this.shotAt, this.nameAt];
  }

  private shot([description = '', point = '']: readonly string[]): Shot {
    const shot = readShot(description);
    const name = shot.name === '' || (shot.mark === null && point !== '') ? point : shot.name;
    return { ...shot, name: this.places.siteName(name) };
  }

  /** What the elevation of a shot is of; a refusal while it is not said. */
  private meaning({ name, mark }: Shot): Meaning | Refusal {
    if (name === '') return missing(this.heading, 'the name of a location');
    if (this.hasNoHeadings && this.context.answer(ORDER) !== 'yes')
      return {
        column: this.heading,
        expected: 'an answer to the order of the columns',
        found: name,
      };
    if (mark !== null)
      return this.context.answer(READ_SO) === 'yes'
        ? mark
        : { column: this.heading, expected: 'an answer to how the marks are read', found: name };
    const answer = this.context.answer(BARE);
    if (answer === 'ground' || answer === 'casing' || answer === 'place') return answer;
    return { column: this.heading, expected: 'an answer to what its elevation is of', found: name };
  }

  private ask(): void {
    const { context, withCasing, withGround, bare } = this;
    const parts = [
      withCasing.size > 0 ? `Marks on the casing, where levels are read from: ${listed([...withCasing])}.` : '', // prettier-ignore
      withGround.size > 0 ? `The ground: ${listed([...withGround])}.` : '',
    ].filter(Boolean);
    if (this.hasNoHeadings)
      context.ask({
        id: ORDER,
        question: 'Are the columns point, northing, easting, elevation and description?',
        why: 'The file has no headings; this is the order surveys usually have. If the easting comes first, say so under Columns, then answer yes.', // prettier-ignore
        choices: [
          { value: 'yes', says: 'Yes, as under Columns' },
          { value: 'no', says: 'No: refuse its rows' },
        ],
        proposed: 'yes',
        usual: true,
        needed: true,
      });
    if (parts.length > 0)
      context.ask({
        id: READ_SO,
        question: 'Are these shots of one location each, on its casing and on the ground?',
        why: `${this.heading} ends in words such as TOC or GS. ${parts.join(' ')} A location is placed by its casing where that was shot.`,
        choices: [
          { value: 'yes', says: 'Yes' },
          { value: 'no', says: 'No: refuse them' },
        ],
        proposed: 'yes',
        needed: true,
      });
    if (bare.size > 0 && this.hasElevation)
      context.ask({
        id: BARE,
        question: 'What is the elevation of the shots that name no mark?',
        why: `${listed([...bare])}.`,
        choices: [
          { value: 'ground', says: 'The ground' },
          { value: 'casing', says: 'The mark levels are read from' },
          { value: 'place', says: 'Not known: take their place alone' },
        ],
        proposed: 'ground',
        usual: true,
        needed: true,
      });
  }

  private get hasNoHeadings(): boolean {
    return this.context.source.headerRow === 0;
  }

  private get hasElevation(): boolean {
    return this.context.at('@shot_elevation') !== null;
  }

  /** A column of what the shots of some meanings say; blank in the others. */
  private only(made: Made, is: (meaning: Meaning, shot: Shot) => boolean): Made {
    const { from } = this;
    return {
      ...made,
      from: [...from, ...made.from],
      make: (texts) => {
        const shot = this.shot(texts.slice(0, from.length));
        const meaning = this.hasElevation || shot.mark !== null ? this.meaning(shot) : 'place';
        if (typeof meaning !== 'string') return meaning;
        return is(meaning, shot) ? made.make(texts.slice(from.length)) : '';
      },
    };
  }

  /** A column of what a shot itself is. */
  private of(column: string, cell: (shot: Shot) => Cell): Made {
    return { column, from: this.from, make: (texts) => cell(this.shot(texts)) };
  }

  plan(): Plan {
    const { context } = this;
    const isMark = (meaning: Meaning) => meaning === 'casing';
    const isGround = (meaning: Meaning) => meaning === 'ground';
    // A location is placed by its casing where that was shot.
    const isPlace = (meaning: Meaning, { name }: Shot) => meaning === 'casing' || !this.withCasing.has(name); // prettier-ignore
    const id = this.of('id', ({ name }) => (name === '' ? missing(this.heading, 'the name of a location') : name)); // prettier-ignore
    const elevation = (column: string) =>
      this.hasElevation ? lengthColumns(context, context.slot('@shot_elevation'), column) : [];
    const how: Made = { column: 'ground_how', from: [], make: () => 'surveyed' };
    const kept = keptColumns(context, 'locations');
    const { locations: known } = context.target.site;
    const given = (column: 'kind' | 'status') =>
      this.of(column, ({ name }) =>
        known.has(name) ? '' : this.kinds.cell(name, column, this.heading),
      );
    const locations: Part = {
      table: 'locations',
      key: keyOf('locations'),
      columns: [
        id,
        ...coordinateColumns(context).map((made) => this.only(made, isPlace)),
        ...elevation('ground_elevation').map((made) => this.only(made, isGround)),
        ...(this.hasElevation ? [this.only(how, isGround)] : []),
        given('kind'),
        given('status'),
        ...kept.map((made) => this.only(made, (meaning) => !isMark(meaning))),
      ],
    };
    const screen = this.of('screen', ({ name }) => this.places.screenOf(name, this.heading));
    const marks: Part = {
      table: 'measuring_points',
      key: keyOf('measuring_points'),
      columns: [
        this.only({ ...screen, column: 'id' }, isMark),
        this.only(screen, isMark),
        this.only(
          this.of('description', ({ words }) => words),
          isMark,
        ),
        ...elevation('elevation').map((made) => this.only(made, isMark)),
        ...kept.map((made) => this.only(made, isMark)),
      ],
    };
    const screens: Part = {
      table: 'screens',
      key: keyOf('screens'),
      columns: [
        this.only({ ...screen, column: 'id' }, isMark),
        this.only(
          this.of('location', ({ name }) => name),
          isMark,
        ),
      ],
    };
    return { rows: null, once: this.hasElevation ? [locations, screens, marks] : [locations] };
  }
}
