import { getContext, setContext } from 'svelte';
import { ASKED_AT_FIRST } from '../../domain/lab/asked-results';
import type { Shown } from '../../domain/site/shown';
import { rewordStop, rewriteWalk, freeId, stopsOf } from '../../domain/walk/walk-stops';
import { viewWords } from '../../domain/walk/view-words';
import { usualSurface } from '../../domain/walk/usual-surface';
import { movingWater } from '../../domain/walk/direction-field';
import { said, type Stop, type StopView, type Window } from '../../domain/walk/stop';
import { headsOf } from '../../domain/water/event-heads';
import { zonesOf } from '../../domain/water/flow';
import type { OpenSite } from '../open-site.svelte';

/** Which room the walk is shown in. */
export type Room = 'bright' | 'dark';

/** The walk through the open site: its stops, which of them is told, and how it is shown. */
export class Walk {
  readonly #site: OpenSite;

  /** Whether it fills the screen. */
  running = $state(false);
  /** Whether a figure sheet is being made. */
  figuring = $state(false);
  /** Which of the told stops, from 0. */
  at = $state(0);
  room: Room = $state('bright');
  notesShown = $state(false);
  pointing = $state(false);
  legendShown = $state(true);
  /** Whether water may be shown to move. */
  moving = $state(true);
  /** When the walk began, milliseconds of the clock; null before it does. */
  began: number | null = $state(null);
  /** What the map is to hold; a new one moves it there. Null: the whole site. */
  window: Window | null = $state.raw(null);
  /** What was just kept, for whoever kept it; blank after a while. */
  kept = $state('');
  /** The event and zone told of; what is shown before the walk begins. */
  #event: string | null = $state(null);
  /** Zone and levels told of; null before the walk begins. */
  #held: Pick<Shown, 'zone' | 'levelSet'> | null = $state.raw(null);
  #before: { readonly shown: Shown; readonly asked: OpenSite['asked'] } | null = null;

  constructor(site: OpenSite) {
    this.#site = site;
  }

  /** The event told of. */
  get event(): string | null {
    return this.#event ?? this.#site.shown.event;
  }

  readonly stops = $derived.by((): readonly Stop[] => {
    const { site } = this.#site;
    const { event } = this;
    // Held while it runs: a stop that shows another zone makes no other walk of the rest.
    const { zone: wanted, levelSet } = this.#held ?? this.#site.shown;
    const zones = event === null ? [] : zonesOf(headsOf(site, event));
    const zone = zones.includes(wanted) ? wanted : (zones[0] ?? null);
    return stopsOf(site, { event, zone, levelSet });
  });
  readonly told = $derived(this.stops.filter(({ hidden }) => !hidden));
  readonly stop = $derived(this.told[Math.min(this.at, this.told.length - 1)] ?? null);
  readonly next = $derived(this.told[this.at + 1] ?? null);

  /** The contours of the stop; null where it shows none, or where no direction is resolved to go with them. */
  readonly contours = $derived.by(() =>
    this.stop?.view.contours ? usualSurface(this.#site.site, this.#site.flow) : null,
  );

  /**
   * Where the water of the stop moves; null where no direction is shown or
   * resolved, and beside results, so that nobody takes it for what they are of.
   */
  readonly water = $derived.by(() => {
    const { stop } = this;
    const { flow } = this.#site;
    if (!this.moving || !flow || !stop?.view.shown.arrow || stop.view.shown.verdicts) return null;
    return movingWater(flow, stop.view.contours);
  });

  start(from = 0) {
    if (this.told.length === 0) return;
    this.#before = { shown: this.#site.shown, asked: this.#site.asked };
    this.#event = this.#site.shown.event;
    this.#held = this.#site.shown;
    this.#site.asked = ASKED_AT_FIRST;
    this.running = true;
    this.began = Date.now();
    this.go(from);
  }

  leave = () => {
    this.running = false;
    this.began = null;
    this.#event = null;
    this.#held = null;
    this.#site.work = null;
    if (!this.#before) return;
    this.#site.asked = this.#before.asked;
    this.#site.show(this.#before.shown);
  };

  /** To a stop by its place; the same one again is the way back to it. */
  go(to: number) {
    this.at = Math.max(0, Math.min(this.told.length - 1, to));
    const { stop } = this;
    if (!stop) return;
    this.#site.work = null;
    this.#site.select(null);
    this.kept = '';
    this.#show(stop);
    this.window = stop.view.window && { ...stop.view.window };
  }

  forward = () => this.go(this.at + 1);
  back = () => this.go(this.at - 1);
  again = () => this.go(this.at);

  #show({ view }: Stop) {
    this.#site.asked = view.asked ?? ASKED_AT_FIRST;
    this.#site.show(view.shown);
  }

  /**
   * Tell of another event: stops the site makes of itself change with it; one
   * that was kept, or tells of an event of its own, stands beside it.
   */
  tellOf(event: string) {
    const before = this.stop;
    this.#event = event;
    if (!before) return;
    // The other event may have a stop more or less before this one.
    const place = this.told.findIndex(({ id }) => id === before.id);
    if (place >= 0) this.at = place;
    const { stop } = this;
    if (stop && stop.made !== null && stop.view.shown.event === event) this.#show(stop);
    else this.#site.show({ event });
  }

  /**
   * Keep what is seen as a stop after the one in hand; the last one where no walk is on.
   * @param drawn  what is drawn beside what the desk shows: contours, a section, open sides
   */
  keep(seen: Window, title: string, drawn: Partial<StopView> = {}) {
    const here = this.running ? this.stop : null;
    const place = here ? this.stops.indexOf(here) + 1 : this.stops.length;
    const { shown, asked } = this.#site;
    const isUsual = JSON.stringify(asked) === JSON.stringify(ASKED_AT_FIRST);
    const view: StopView = {
      points: 'all',
      contours: false,
      ...here?.view,
      ...drawn,
      ...(isUsual ? {} : { asked }),
      shown,
      window: seen,
    };
    const kept: Stop = {
      id: freeId(this.stops),
      made: null,
      title,
      sentences: [said('')],
      notes: '',
      hidden: false,
      view,
    };
    this.#rewrite('Keep this view as a stop', this.stops.toSpliced(place, 0, kept));
    const told = this.told.findIndex(({ id }) => id === kept.id) + 1;
    this.kept = `Kept as stop ${told}: ${viewWords(this.#site.site, view)}. What it shows can be changed under Stops.`;
  }

  move(id: string, by: number) {
    const from = this.stops.findIndex((stop) => stop.id === id);
    const to = from + by;
    const moved = this.stops[from];
    if (!moved || to < 0 || to >= this.stops.length) return;
    this.#rewrite('Reorder the walk', this.stops.toSpliced(from, 1).toSpliced(to, 0, moved));
  }

  hide(id: string, hidden: boolean) {
    const stops = this.stops.map((stop) => (stop.id === id ? { ...stop, hidden } : stop));
    this.#rewrite(hidden ? 'Hide a stop' : 'Show a stop', stops);
  }

  remove(id: string) {
    this.#rewrite(
      'Remove a stop',
      this.stops.filter((stop) => stop.id !== id),
    );
  }

  /** Other words for a stop, or another view for one that was kept. */
  reword(id: string, words: Parameters<typeof rewordStop>[3]) {
    this.#site.edit('Edit a stop', rewordStop(this.#site.package, this.stops, id, words));
  }

  #rewrite(label: string, stops: readonly Stop[]) {
    this.#site.edit(label, rewriteWalk(this.#site.package, stops));
  }
}

const KEY = Symbol('walk');
export const provideWalk = (walk: Walk) => setContext(KEY, walk);
export const useWalk = () => getContext<Walk>(KEY);
