import { cellText } from '../../domain/site/table';
import { marksOf } from '../../domain/water/measuring-point';
import type { Cell } from './ask';
import type { Made } from './cells';
import type { Context } from './context';
import type { Places } from './places';
import type { Part, Plan } from './plan';
import { keptColumns, keyOf, missing, required, tableColumns } from './plan-common';
import { slotTitle, type Slot } from './forms';
import { readHeading } from './heading';
import { lengthColumns } from './length-columns';
import { readerFor, timeFrom } from './readers';
import type { Rounds } from './rounds';
import { depthWordReader } from './depth-words';

/** The screen of a row, by the name in its column. */
export function screenColumn(context: Context, places: Places, slot: string): Made {
  const at = context.at(slot);
  const heading = context.heading(at, 'Location');
  return {
    column: 'screen',
    from: at === null ? [] : [at],
    make: ([name = '']) =>
      name === '' ? missing(heading, 'a location or screen') : places.screen(name, heading),
  };
}

/** Date, with the time of day beside it. */
export function timeColumn(context: Context, slot: string): Made[] {
  const at = context.at(slot);
  if (at === null) return [];
  const clock = context.at('@clock');
  return [
    { column: 'time', from: clock === null ? [at] : [at, clock], make: timeFrom(context, slot) },
  ];
}

/** The round of a row. */
export function eventColumn(context: Context, rounds: Rounds, timeSlot: string): Made {
  const at = context.at(timeSlot);
  return {
    column: 'event',
    from: rounds.columns(at),
    make: (texts) => rounds.of(texts, at !== null),
  };
}

/** A file of water levels. Depths below the land surface bring that mark for the screens that lack it. */
export function planLevels(context: Context, places: Places, rounds: Rounds): Plan {
  const screen = screenColumn(context, places, 'water_levels.screen');
  const belowGround =
    context.at('@depth_below_ground') !== null &&
    context.at('water_levels.depth_to_water') === null;
  const depthSlot = belowGround ? '@depth_below_ground' : 'water_levels.depth_to_water';
  const depthAt = context.at(depthSlot);
  const marks = belowGround ? new LandSurface(context, false) : null;
  const casing = belowGround ? [] : casingColumn(context, screen, depthAt);
  const rows: Part = {
    table: 'water_levels',
    key: keyOf('water_levels'),
    columns: [
      screen,
      eventColumn(context, rounds, 'water_levels.time'),
      ...(marks ? [{ ...screen, column: 'measuring_point', make: marks.of(screen) }] : []),
      ...casing,
      ...timeColumn(context, 'water_levels.time'),
      ...depthColumns(context, depthSlot),
      statusColumn(context, 'water_levels.status', depthAt),
      ...tableColumns(context, 'water_levels', [
        'water_levels.screen',
        'water_levels.event',
        'water_levels.time',
        'water_levels.depth_to_water',
        'water_levels.status',
        ...(marks || casing.length > 0 ? ['water_levels.measuring_point'] : []),
      ]),
      ...keptColumns(context, 'water_levels'),
    ],
  };
  return { rows, once: marks ? [marks.part(screen)] : [] };
}

/** Marks on a casing, by how they are described. */
const ON_CASING = /casing|riser|rods?\b|notch|measuring point|\bto[cr]\b/i;

/**
 * The mark of each reading where the heading of the depths says that they are
 * below the top of casing: that of its screen, where it has one alone. None where
 * the file names the marks itself, or its heading says nothing.
 */
function casingColumn(context: Context, screen: Made, depthAt: number | null): Made[] {
  const slot = 'water_levels.measuring_point';
  const heading = context.heading(depthAt, '');
  if (context.has(slot) || readHeading(heading).from !== 'casing') return [];
  const { site } = context.target;
  let isSaid = false;
  const markOf = (id: string): string => {
    const [only, ...others] = marksOf(site, id).filter(({ description }) => description?.trim().toLowerCase() !== LAND); // prettier-ignore
    if (!only || others.length > 0 || !ON_CASING.test(only.description ?? '')) return '';
    if (!isSaid) context.say(`“${heading}”: each reading names the mark on the casing of its screen, where there is one alone.`); // prettier-ignore
    isSaid = true;
    return only.id;
  };
  return [
    {
      ...screen,
      column: 'measuring_point',
      make: (texts): Cell => {
        const cell = screen.make(texts);
        return typeof cell === 'string' ? markOf(cell) : cell;
      },
    },
  ];
}

/** Depths; blank where the cell says “dry” instead. */
export function depthColumns(context: Context, slot: string): Made[] {
  const wordOf = depthWordReader(context, context.at(slot));
  return lengthColumns(context, context.slot(slot), 'depth_to_water').map((made) => ({
    ...made,
    make: (texts): Cell => (wordOf(texts[0] ?? '') === null ? made.make(texts) : ''),
  }));
}

/** The state of the water: its column, a word in the cell of depths, or one state for the file. */
export function statusColumn(context: Context, slotId: string, depthAt: number | null): Made {
  const slot = context.slot(slotId);
  const statusAt = context.at(slot.id);
  const own = stateOfRow(context, slot, statusAt);
  const wordOf = depthWordReader(context, depthAt);
  const from = [...(statusAt === null ? [] : [statusAt]), ...(depthAt === null ? [] : [depthAt])];
  return {
    column: 'status',
    from,
    make: (texts): Cell => {
      const word = depthAt === null ? null : wordOf(texts.at(-1) ?? '');
      if (word !== null) return word;
      return own(statusAt === null ? '' : (texts[0] ?? ''));
    },
  };
}

/** What a file says the state of the water was, else a person: it is never taken for granted. */
function stateOfRow(context: Context, slot: Slot, at: number | null): (text: string) => Cell {
  const title = context.heading(at, slotTitle(slot));
  const read = readerFor(context, slot, at);
  const constant = context.constant(slot.id);
  const open = missing(title, 'an answer to what state the water was in');
  // A level in a push log is read when the rods are opened: nobody has said that it was at rest.
  const usual = slot.id === '@read_status' ? 'not known' : 'static';
  if (at === null) context.askConstant(slot.id, usual);
  return (text) => {
    const cell = read(text === '' ? (constant ?? '') : text);
    if (cell !== '') return cell;
    if (at !== null)
      context.askConstant(slot.id, usual, `${title} is blank in some rows.`, true, true);
    return open;
  };
}

const LAND = 'land surface';

/** The mark at land surface of each screen that is read from there. */
export class LandSurface {
  private readonly known = new Map<string, string>();
  private readonly ids = new Set<string>();

  /** @param hasOthers  whether the file brings each screen a mark of its own name too */
  constructor(
    private readonly context: Context,
    private readonly hasOthers: boolean,
  ) {
    const { site } = context.target;
    for (const { id, screen, description } of site.measuringPoints.values()) {
      this.ids.add(id);
      if (description?.trim().toLowerCase() === LAND) this.known.set(screen, id);
    }
    const table = context.target.package.tables.measuring_points;
    for (let row = 0; table && row < table.size; row++)
      this.ids.add(cellText(table, row, 'id').trim());
    context.say(
      'Depths are below the land surface: each screen’s mark is its land surface, at the ground elevation of its location.',
    );
  }

  /** The mark of the row's screen. */
  of =
    (screen: Made): Made['make'] =>
    (texts) => {
      const cell = screen.make(texts);
      return typeof cell === 'string' ? this.mark(cell) : cell;
    };

  private mark(screen: string): string {
    const known = this.known.get(screen);
    if (known !== undefined) return known;
    const id = this.hasOthers || this.ids.has(screen) ? `${screen} ${LAND}` : screen;
    this.known.set(screen, id);
    return id;
  }

  /** Marks to be there: stick-up nought, so that a better ground elevation carries through. */
  part(screen: Made): Part {
    return {
      table: 'measuring_points',
      key: keyOf('measuring_points'),
      columns: [
        { ...screen, column: 'id', make: this.of(screen) },
        screen,
        { column: 'description', from: [], make: () => LAND },
        { column: 'stick_up', from: screen.from, make: this.stickUp(screen) },
      ],
    };
  }

  /** A mark the site has with an elevation of its own needs none. */
  private stickUp =
    (screen: Made): Made['make'] =>
    (texts) => {
      const cell = screen.make(texts);
      const mark = typeof cell === 'string' ? this.mark(cell) : '';
      return this.context.target.site.measuringPoints.get(mark)?.elevation ? '' : '0';
    };
}

/** A file of field parameters read while purging. */
export function planPurge(context: Context, places: Places, rounds: Rounds): Plan {
  const time = timeColumn(context, 'purge_readings.time').map((made) =>
    required(made, context.heading(context.at('purge_readings.time'), 'Time'), 'a date and time'),
  );
  const rows: Part = {
    table: 'purge_readings',
    key: keyOf('purge_readings'),
    columns: [
      screenColumn(context, places, 'purge_readings.screen'),
      eventColumn(context, rounds, 'purge_readings.time'),
      ...time,
      ...tableColumns(context, 'purge_readings', [
        'purge_readings.screen',
        'purge_readings.event',
        'purge_readings.time',
      ]),
      ...keptColumns(context, 'purge_readings'),
    ],
  };
  return { rows, once: [] };
}
