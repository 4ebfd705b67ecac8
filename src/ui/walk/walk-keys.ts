/** What a key does in the walk: arrows and the buttons of a clicker go on and back. */
export type Deed =
  'forward' | 'back' | 'first' | 'last' | 'again' | 'close' | 'notes' | 'room' | 'point' | 'legend';

const DEEDS: Readonly<Record<string, Deed>> = {
  ArrowRight: 'forward',
  ArrowDown: 'forward',
  PageDown: 'forward',
  ArrowLeft: 'back',
  ArrowUp: 'back',
  PageUp: 'back',
  Home: 'first',
  End: 'last',
  Backspace: 'again',
  Escape: 'close',
  n: 'notes',
  t: 'room',
  p: 'point',
  l: 'legend',
};

/** The deed of a key; null for keys that are somebody else's, such as one typed into a field. */
export function deedOf(event: KeyboardEvent): Deed | null {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  const { target } = event;
  const typing = target instanceof Element && target.closest('input, textarea, select') !== null;
  if (typing) return event.key === 'Escape' ? 'close' : null;
  // The list of points has arrow keys and letters of its own; a clicker still goes on.
  const listed = target instanceof Element && target.closest('[role="listbox"]') !== null;
  if (listed && !['PageDown', 'PageUp', 'Escape'].includes(event.key)) return null;
  return DEEDS[event.key] ?? null;
}

/** Less than this across is no swipe, px. */
const SWIPE = 60;

/** Which way a finger went over the words; null for a tap or a scroll. */
export function swipeOf(across: number, down: number): 'forward' | 'back' | null {
  if (Math.abs(across) < SWIPE || Math.abs(across) < 2 * Math.abs(down)) return null;
  return across < 0 ? 'forward' : 'back';
}
