import type { Cell, Refusal } from './ask';
import type { Context } from './context';
import { KINDS } from './kinds';
import { listed } from './listed';

/** A level or a sample is of something that stands already. */
const STANDING = KINDS.filter(({ status }) => status !== 'planned');

/** A location to be added, as a person said it is. */
export type NewLocation = {
  readonly id: string;
  readonly kind: string;
  readonly status: string;
};

const LOCATION = 'new locations';
const SCREEN = 'new screens';

const loose = (name: string) => name.toLowerCase().replace(/\s+/g, ' ');

/** Names of a table by how they look in small letters; null where two look alike. */
function looselyNamed(names: Iterable<string>): ReadonlyMap<string, string | null> {
  const found = new Map<string, string | null>();
  for (const name of names) {
    const key = loose(name);
    found.set(key, found.has(key) ? null : name);
  }
  return found;
}

/** Which screen or location a name in a file is, and which are not on the site yet. */
export class Places {
  readonly newLocations = new Map<string, NewLocation>();
  /** New screens by id, and the location each is at. */
  readonly newScreens = new Map<string, string>();
  private readonly unknown = new Set<string>();
  private readonly bare = new Set<string>();
  private readonly byLocation = new Map<string, string[]>();
  private readonly looseScreens: ReadonlyMap<string, string | null>;
  private readonly looseLocations: ReadonlyMap<string, string | null>;

  constructor(private readonly context: Context) {
    const { site } = context.target;
    for (const { id, location } of site.screens.values()) {
      const screens = this.byLocation.get(location);
      if (screens) screens.push(id);
      else this.byLocation.set(location, [id]);
    }
    this.looseScreens = looselyNamed(site.screens.keys());
    this.looseLocations = looselyNamed(site.locations.keys());
  }

  /** The screen a name means: its own, or the only one of the location so named. */
  screen(name: string, heading: string): Cell {
    const { site } = this.context.target;
    if (site.screens.has(name)) return name;
    if (site.locations.has(name)) return this.onlyScreen(name, heading, name);
    const near = this.looseScreens.get(loose(name)) ?? null;
    if (near !== null) return this.taken(name, near, near);
    const nearLocation = this.looseLocations.get(loose(name)) ?? null;
    if (nearLocation !== null) {
      const screen = this.onlyScreen(nearLocation, heading, name);
      return typeof screen === 'string' ? this.taken(name, nearLocation, screen) : screen;
    }
    const added = this.addLocation(name, heading);
    if (typeof added !== 'string') return added;
    this.newScreens.set(name, name);
    return name;
  }

  /** The location a name means. */
  location(name: string, heading: string): Cell {
    const { site } = this.context.target;
    if (site.locations.has(name)) return name;
    const near = this.looseLocations.get(loose(name)) ?? null;
    return near !== null ? this.taken(name, near, near) : this.addLocation(name, heading);
  }

  /** The name the site has for a location, whatever its capitals and blanks; the name itself where it has none. */
  siteName(name: string): string {
    if (this.context.target.site.locations.has(name)) return name;
    const near = this.looseLocations.get(loose(name)) ?? null;
    return near === null ? name : this.taken(name, near, near);
  }

  /**
   * The location or screen of the site a sample's name means: the same, but for
   * capitals and blanks, or what it begins with: MW-3 for "MW-3-1025". Null for none.
   */
  placeNamed(name: string): string | null {
    const { site } = this.context.target;
    const called = (text: string): string | null =>
      site.screens.has(text) || site.locations.has(text)
        ? text
        : (this.looseScreens.get(loose(text)) ?? this.looseLocations.get(loose(text)) ?? null);
    const whole = called(name);
    if (whole !== null) return whole;
    for (let end = name.length - 1; end > 1; end--) {
      if (!/[\s_/()-]/.test(name[end] ?? '')) continue;
      const place = called(name.slice(0, end).trim());
      if (place !== null) return place;
    }
    return null;
  }

  /** The screen at a location, of its name where it is yet to be made. */
  screenOf(name: string, heading: string): Cell {
    const screens = this.byLocation.get(name) ?? [];
    return screens.length > 1
      ? refusal(heading, `one of its screens, ${listed(screens)}`, name)
      : (screens[0] ?? name);
  }

  private taken(written: string, meant: string, cell: string): string {
    this.context.say(
      `“${written}” is taken for ${meant}: they differ in capitals or blanks alone.`,
    );
    return cell;
  }

  private onlyScreen(location: string, heading: string, found: string): Cell {
    const screens = this.byLocation.get(location) ?? [];
    const [only] = screens;
    if (only !== undefined && screens.length === 1) return only;
    if (screens.length > 1)
      return refusal(heading, `one of its screens, ${listed(screens)}`, found);
    this.bare.add(location);
    const added = this.context.answer(SCREEN);
    if (added === null) return refusal(heading, 'an answer to adding a screen there', found);
    if (added !== 'add') return refusal(heading, 'a location with a screen', found);
    this.newScreens.set(location, location);
    return location;
  }

  private addLocation(name: string, heading: string): Cell {
    this.unknown.add(name);
    const kind = STANDING.find((each) => each.kind === this.context.answer(LOCATION));
    if (!kind)
      return this.context.answer(LOCATION) === null
        ? refusal(heading, 'an answer to what this is: the site does not have it', name)
        : refusal(heading, 'a location or screen of the site', name);
    this.newLocations.set(name, { id: name, kind: kind.kind, status: kind.status });
    return name;
  }

  /** The questions that came up, once all names have been seen. */
  ask(): void {
    if (this.unknown.size > 0)
      this.context.ask({
        id: LOCATION,
        question: 'What are the locations the site does not have yet?',
        why: `${listed([...this.unknown])} ${this.unknown.size === 1 ? 'is' : 'are'} not on the site. Added ones have no coordinates yet.`,
        choices: [
          ...STANDING.map(({ kind, says }) => ({ value: kind, says: `Add them as ${says}` })),
          { value: 'refuse', says: 'Refuse their rows' },
        ],
        proposed: null,
        needed: true,
      });
    if (this.bare.size > 0)
      this.context.ask({
        id: SCREEN,
        question: 'Add a screen to the locations that have none?',
        why: `${listed([...this.bare])} ${this.bare.size === 1 ? 'has' : 'have'} no screen for water to be read or sampled from. An added one bears the location’s name, its depth not known.`,
        choices: [
          { value: 'add', says: 'Add one to each' },
          { value: 'refuse', says: 'Refuse their rows' },
        ],
        proposed: 'add',
        usual: true,
        needed: true,
      });
  }
}

const refusal = (column: string, expected: string, found: string): Refusal => ({
  column,
  expected,
  found,
});
