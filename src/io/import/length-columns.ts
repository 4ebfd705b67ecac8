import { expectedOf } from '../../domain/site/read-cell';
import { decimalsIn, unitText } from '../../domain/show';
import { isLengthUnit, METRES_PER, type LengthUnit } from '../../domain/units';
import type { Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import { columnOf, slotTitle, type Slot } from './forms';
import { lengthUnitNamed, readHeading } from './heading';
import { digitsOf, numberExpected, refuse } from './reader';
import { elevationUnitIn } from './title-lines';

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
  const inTitle = elevationUnitIn(context.source.titles ?? []);
  const bySite = isLengthUnit(recorded) ? recorded : null;
  const above = inTitle === null ? '' : ` Above the headings stands “${inTitle.words}”.`;
  context.ask({
    id: ASK_LENGTH,
    question: 'Which unit are the depths and elevations in?',
    why: `“${heading}” ${odd === null ? 'does not name its unit' : `names “${odd}”, which is no unit of length known here`}, and no column does.${above} The site records in ${unitText(isLengthUnit(recorded) ? recorded : 'm')}.`,
    choices: [
      { value: 'ft', says: 'Feet' },
      { value: 'm', says: 'Metres' },
      { value: 'us-ft', says: 'US survey feet' },
    ],
    proposed: inTitle?.unit ?? bySite,
    usual: inTitle === null,
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
