import type { Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import type { Part } from './plan';
import { keyOf, missing } from './plan-common';
import { depthColumns, LandSurface, statusColumn } from './plan-levels';
import { readWhenText } from './readers';
import { Rounds } from './rounds';

const DEPTH = '@depth_below_ground';
const READ = '@read_time';
const SET = 'screens.set_time';
const DAY = 'day of levels';

/** The day levels in a file of locations were read: a column of its own, or the day the screens were set where a person says so. */
function timeSlot(context: Context): string | null {
  if (context.at(READ) !== null) return READ;
  const setAt = context.at(SET);
  if (setAt === null) return null;
  const heading = context.heading(setAt, 'Set');
  context.ask({
    id: DAY,
    question: 'Were the water levels read on the day the screens were set?',
    why: `The file has depths to water and one column of dates, “${heading}”.`,
    choices: [
      { value: 'set', says: `Yes, on the day under ${heading}` },
      { value: 'no', says: 'No, or not known: leave the levels out' },
    ],
    proposed: 'set',
    usual: true,
    needed: true,
  });
  return SET;
}

/** Water levels a file of locations has beside them, as a push log does; with the events they belong to. */
export type LevelsThere = { readonly parts: readonly Part[]; readonly rounds: Rounds };

/**
 * Depths to water below ground in a file of locations: a level for each row that
 * has one, read from the land surface. Null where there are none, or a person
 * leaves them out.
 *
 * @param screen  the screen of a row, as its name
 * @param hasMarks  whether the file brings measuring points of its own
 */
export function levelsThere(context: Context, screen: Made, hasMarks: boolean): LevelsThere | null {
  const depthAt = context.at(DEPTH);
  if (depthAt === null) return null;
  const slot = timeSlot(context);
  if (slot === SET && context.answer(DAY) === 'no') return null;
  const rounds = new Rounds(context, 'water_levels.event', slot ?? READ, 'Levels');
  const timeAt = slot === null ? null : context.at(slot);
  const isOpen = slot === SET && context.answer(DAY) === null;
  const land = new LandSurface(context, hasMarks);

  /** Blank in the rows that have no depth. */
  const where = (made: Made): Made => ({
    ...made,
    from: [depthAt, ...made.from],
    make: ([depth = '', ...texts]) => (depth === '' ? '' : made.make(texts)),
  });
  const ofMark: Made = { ...screen, make: land.of({ ...screen, column: 'screen' }) };
  const time: readonly Made[] =
    timeAt === null
      ? []
      : [{ column: 'time', from: [timeAt], make: ([text = '']): Cell => {
          if (isOpen) return missing(context.heading(depthAt, 'Depth to water'), 'an answer to when it was read'); // prettier-ignore
          return text === '' ? '' : readWhenText(context, timeAt, text);
        } }]; // prettier-ignore
  const levels: Part = {
    table: 'water_levels',
    key: keyOf('water_levels'),
    columns: [
      where({ ...screen, column: 'screen' }),
      where({
        column: 'event',
        from: rounds.columns(timeAt),
        make: (texts) => rounds.of(texts, timeAt !== null),
      }),
      where({ ...ofMark, column: 'measuring_point' }),
      ...time.map(where),
      ...depthColumns(context, DEPTH),
      where(statusColumn(context, '@read_status', depthAt)),
    ],
  };
  const marks = land.part({ ...screen, column: 'screen' });
  return {
    parts: [{ ...marks, columns: marks.columns.map(where) }, levels],
    rounds,
  };
}
