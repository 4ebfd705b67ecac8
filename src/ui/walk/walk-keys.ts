/** What a key does in the walk: arrows and the buttons of a clicker go on and back. */
export type Deed =
  | 'forward'
  | 'back'
  | 'first'
  | 'last'
  | 'again'
  | 'close'
  | 'notes'
  | 'room'
  | 'point'
  | 'legend'
  | 'moving'
  | 'speaker';

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
  m: 'moving',
  s: 'speaker',
};

/** The keys of a clicker, which go on and back whatever has the focus. */
const CLICKER = ['PageDown', 'PageUp', 'Escape'];

/** The deed of a key; null for keys that are somebody else's, such as one typed into a field. */
export function deedOf(event: KeyboardEvent): Deed | null {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  if (event.shiftKey && event.key.startsWith('Arrow')) return null;
  const { target } = event;
  const within = (of: string) => target instanceof Element && target.closest(of) !== null;
  if (within('input:not([type="range"]), textarea, select'))
    return event.key === 'Escape' ? 'close' : null;
  // The slider and the list of points have arrow keys and letters of their own; a clicker still goes on.
  if (within('[role="listbox"], input') && !CLICKER.includes(event.key)) return null;
  return DEEDS[event.key] ?? null;
}

/** How far the pointer goes at a press of a key, as a share of the screen. */
const NUDGE = 0.04;

/** Where a key with Shift moves the pointer that everyone sees, as shares of the screen; null for other keys. */
export function nudgeOf({ key, shiftKey }: KeyboardEvent): readonly [x: number, y: number] | null {
  if (!shiftKey) return null;
  if (key === 'ArrowLeft') return [-NUDGE, 0];
  if (key === 'ArrowRight') return [NUDGE, 0];
  if (key === 'ArrowUp') return [0, -NUDGE];
  return key === 'ArrowDown' ? [0, NUDGE] : null;
}

/** Less than this across is no swipe, px. */
const SWIPE = 60;

/** Which way a finger went over the words; null for a tap or a scroll. */
export function swipeOf(across: number, down: number): 'forward' | 'back' | null {
  if (Math.abs(across) < SWIPE || Math.abs(across) < 2 * Math.abs(down)) return null;
  return across < 0 ? 'forward' : 'back';
}
