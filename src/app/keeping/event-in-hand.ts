const KEY = 'downgradient:events-in-hand';

/** Sites remembered; of more the longest unopened is forgotten. */
const MOST = 60;

/** Where it is written: the browser's own store, or a test's. */
type Store = Pick<Storage, 'getItem' | 'setItem'>;

type Held = { readonly site: string; readonly event: string };

const isHeld = (value: unknown): value is Held =>
  typeof value === 'object' &&
  value !== null &&
  typeof (value as Held).site === 'string' &&
  typeof (value as Held).event === 'string';

/** The last first; none where this browser keeps nothing for us, or somebody else wrote there. */
function held(store: () => Store): readonly Held[] {
  try {
    const stored: unknown = JSON.parse(store().getItem(KEY) ?? '[]');
    return Array.isArray(stored) ? stored.filter(isHeld) : [];
  } catch {
    return [];
  }
}

/** The event a site kept in this browser was last looked at in; null where that is not known. */
export const eventInHand = (site: string, store: () => Store = () => localStorage): string | null =>
  held(store).find((each) => each.site === site)?.event ?? null;

/** Remember the event a kept site is looked at in, for when it is opened again. */
export function putEventInHand(
  site: string,
  event: string | null,
  store: () => Store = () => localStorage,
): void {
  if (event === null || eventInHand(site, store) === event) return;
  const others = held(store).filter((each) => each.site !== site);
  try {
    store().setItem(KEY, JSON.stringify([{ site, event }, ...others].slice(0, MOST)));
  } catch {
    // A full or closed store only means that the latest event is shown.
  }
}
