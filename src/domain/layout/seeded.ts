import type { Random } from '../water/random';

export type { Random };

/**
 * The same numbers for the same seed on every machine, so that a layout with a
 * random start can be laid again from what was written down. (Mulberry32, T.
 * Ettinger, 2017, public domain: 32 bits of state, enough for choosing places
 * and a million trials, not for secrets.) Simulation has a better one, `randomFrom`;
 * this one stays, since layouts are laid again from their seeds.
 *
 * @param seed  a whole number; only its lowest 32 bits count
 */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}
