import { azimuthBetween, distanceBetween } from '../geometry/compass';
import type { XY } from '../geometry/shape';
import type { Site } from '../site/site';
import { inUnits, type Azimuth } from '../units';

/** How far a point stands from where it was staked, in the grid's unit; the azimuth is the way from the stake. */
export type StakedOffset = {
  readonly id: string;
  readonly staked: XY;
  readonly stands: XY;
  readonly distance: number;
  /** Null where it stands on its stake. */
  readonly azimuth: Azimuth | null;
};

/** Staked against as-pushed, for every point both of whose places are known; in the order of the table. */
export const stakedOffsets = ({ locations, settings }: Site): StakedOffset[] =>
  [...locations.values()].flatMap((location): StakedOffset[] => {
    const { easting, northing, planned_easting, planned_northing, id } = location;
    if (!easting || !northing || !planned_easting || !planned_northing) return [];
    const { unit } = settings.grid;
    const staked: XY = [
      inUnits(planned_easting.value, unit),
      inUnits(planned_northing.value, unit),
    ];
    const stands: XY = [inUnits(easting.value, unit), inUnits(northing.value, unit)];
    const distance = distanceBetween(staked, stands);
    return [{ id, staked, stands, distance, azimuth: azimuthBetween(staked, stands) }];
  });
