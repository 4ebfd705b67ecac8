import { textIn, type Cells } from './cells';
import type { SharedRows } from './once';

/** What the rows that are taken name. */
export type Used = {
  readonly screens: ReadonlySet<string>;
  readonly locations: ReadonlySet<string>;
  /** First and last day of each round; blank where no day is known. */
  readonly events: ReadonlyMap<string, { readonly first: string; readonly last: string }>;
};

/** Screens, locations and rounds, noted as rows that stand name them. */
export class UsedNames implements Used {
  readonly screens = new Set<string>();
  readonly locations = new Set<string>();
  readonly events = new Map<string, { first: string; last: string }>();

  private note(column: string, text: string) {
    if (text === '') return;
    if (column === 'screen') this.screens.add(text);
    if (column === 'location') this.locations.add(text);
  }

  private event(event: string, time: string) {
    if (event === '') return;
    const day = time.slice(0, 10);
    const known = this.events.get(event);
    if (!known) this.events.set(event, { first: day, last: day });
    else if (day !== '') {
      if (known.first === '' || day < known.first) known.first = day;
      if (day > known.last) known.last = day;
    }
  }

  /** Note what rows name that several rows of the file speak of. */
  noteShared(rows: SharedRows): void {
    rows.each(['screen', 'location', 'event', 'time'], ([screen, location, event, time]) => {
      this.note('screen', screen ?? '');
      this.note('location', location ?? '');
      this.event(event ?? '', time ?? '');
    });
  }

  /**
   * Note what the rows of a block name.
   * @param names  the columns of `cells`
   * @param isTaken  whether a row of the block stands
   */
  noteBlock(
    names: readonly string[],
    cells: readonly Cells[],
    size: number,
    isTaken: (i: number) => boolean,
  ): void {
    const [screens, locations, events, times] = ['screen', 'location', 'event', 'time'].map(
      (name) => cells[names.indexOf(name)],
    );
    if (!screens && !locations && !events) return;
    let last = -1;
    for (let i = 0; i < size; i++) {
      if (!isTaken(i)) continue;
      const isSame =
        last >= 0 &&
        [screens, locations, events, times].every((c) => !c || c.codes[i] === c.codes[last]);
      last = i;
      if (isSame) continue;
      this.note('screen', textIn(screens, i));
      this.note('location', textIn(locations, i));
      this.event(textIn(events, i), textIn(times, i));
    }
  }
}
