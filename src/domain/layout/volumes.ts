import { fail, ok, type Result } from '../result';
import { inVolumeUnits, litres, type Litres, type Metres } from '../units';

/**
 * Volumes of round holes and tubes, V = π/4·d²·h. A cubic foot is 1728/231 US
 * gallons, a cubic metre 1000 litres, both exactly.
 */
export const cylinder = (diameter: Metres, height: Metres): Litres =>
  litres((Math.PI / 4) * diameter * diameter * height * 1000);

/** What a tube holds for each foot and each metre of it. */
export type Capacity = { readonly gallonsPerFoot: number; readonly litresPerMetre: number };

export function capacityOf(insideDiameter: Metres): Capacity {
  const litresPerMetre = cylinder(insideDiameter, 1 as Metres);
  return {
    gallonsPerFoot: inVolumeUnits(litres(litresPerMetre * 0.3048), 'gal'),
    litresPerMetre,
  };
}

/**
 * The litres a metre that a printed table's gallons a foot amount to. Printed
 * tables are wrong here: MIL-HDBK-1164, table 1, gives 3.1 L/m beside 0.65
 * gal/ft, which is 8.1. Reckon them, do not copy them.
 */
export const litresPerMetreOf = (gallonsPerFoot: number): number =>
  litres(gallonsPerFoot, 'gal') / 0.3048;

/** What stands in a screen and its tubing, for reckoning a purge. Null is not known. */
export type PurgeParts = {
  /** Inside diameter of the screen, casing or rods that hold the water. */
  readonly casing: Metres;
  /** From the water to the screen base, both below the same mark. */
  readonly column: Metres | null;
  readonly tubing: Metres;
  readonly tubingLength: Metres;
  /** Flow-through cell and pump; none where there is none. */
  readonly cell: Litres;
};

/** How little may be purged before a sample. */
export type PurgeRule =
  | { readonly kind: 'volumes'; readonly times: number } // so many columns of water
  /**
   * Low flow: more than the water drawn down and the tubing hold. (EPA Region 1,
   * 1996, Low stress purging and sampling, as quoted in a public report.)
   */
  | { readonly kind: 'low flow'; readonly drawdown: Metres };

export type NoPurge = { readonly kind: 'no-water' | 'dry' };

/** Minimum purge volume; the pumped water must come to more than this. */
export function minimumPurge(rule: PurgeRule, parts: PurgeParts): Result<Litres, NoPurge> {
  if (parts.column === null) return fail({ kind: 'no-water' });
  if (!(parts.column > 0)) return fail({ kind: 'dry' });
  return ok(
    rule.kind === 'volumes'
      ? litres(rule.times * cylinder(parts.casing, parts.column))
      : litres(cylinder(parts.casing, rule.drawdown) + cylinder(parts.tubing, parts.tubingLength)),
  );
}

/** Tubing and cell together: what must pass before the cell shows water from the screen. */
export const systemVolume = ({ tubing, tubingLength, cell }: PurgeParts): Litres =>
  litres(cylinder(tubing, tubingLength) + cell);

/** Minutes to pump a volume at a rate in litres a minute; null where nothing is pumped. */
export const minutesToPump = (volume: Litres, litresPerMinute: number): number | null =>
  litresPerMinute > 0 ? volume / litresPerMinute : null;

/**
 * Volume to seal a hole: its own, and a share more for what the ground takes.
 *
 * @param extra  0.2 for a fifth more
 */
export const sealingVolume = (hole: Metres, depth: Metres, extra: number): Litres =>
  litres(cylinder(hole, depth) * (1 + extra));

/** Deeper than this a pump at the surface does not lift water. Common practice, about 25 ft. */
export const SUCTION_LIFT = 7.62 as Metres;

/** Whether water at a depth below the pump is past what suction lifts. */
export const isPastSuction = (depthToWater: Metres, lift: Metres = SUCTION_LIFT): boolean =>
  depthToWater > lift;
