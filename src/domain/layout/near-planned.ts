import { distanceBetween } from '../geometry/compass';
import type { XY } from '../geometry/shape';
import type { NamedStake } from './lay-points';

/** A stake that would stand beside a point that is there already; the distance in the grid's unit. */
export type Beside = { readonly at: XY; readonly point: string; readonly distance: number };

/**
 * Stakes nearer to a point of the site than so far, each with the nearest such
 * point, the closest pair first.
 */
export function besidePoints(
  stakes: readonly { readonly at: XY }[],
  points: readonly { readonly id: string; readonly at: XY }[],
  within: number,
): Beside[] {
  return stakes
    .flatMap(({ at }): Beside[] => {
      let nearest: Beside | null = null;
      for (const { id, at: there } of points) {
        const distance = distanceBetween(at, there);
        if (distance < (nearest?.distance ?? within)) nearest = { at, point: id, distance };
      }
      return nearest ? [nearest] : [];
    })
    .sort((a, b) => a.distance - b.distance);
}

/** A name as it is easily misread: capitals, leading noughts and marks between left out. */
const asRead = (name: string) =>
  name
    .toLowerCase()
    .replaceAll(/[^a-z0-9]/g, '')
    .replaceAll(/(?<!\d)0+(?=\d)/g, '');

/** New names that are easily taken for one in use, each with that one: DP-01 beside DP-001. */
export function easilyTakenFor(
  named: readonly Pick<NamedStake, 'name'>[],
  used: Iterable<string>,
): readonly (readonly [name: string, other: string])[] {
  const others = new Map([...used].map((name) => [asRead(name), name]));
  return named.flatMap(({ name }) => {
    const other = others.get(asRead(name));
    return other === undefined ? [] : [[name, other] as const];
  });
}
