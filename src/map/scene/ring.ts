import type { Place, SymbolItem } from './scene';

/** The ring that says which point is chosen, or would be. */
export const ringAround = (at: Place): SymbolItem => ({
  kind: 'symbol',
  layer: 'selection',
  at,
  shape: 'selection',
  size: 34,
  colour: 'ink',
});
