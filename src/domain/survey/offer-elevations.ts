import type { Edit } from '../site/edits/apply';
import type { Site } from '../site/site';
import { inUnits, type LengthUnit, type Metres } from '../units';
import type { AdjustedStation } from './adjustment';

/** An adjusted elevation that a row of the site could take. */
export type Offer = {
  readonly point: string;
  readonly table: 'locations' | 'measuring_points';
  /** As a spreadsheet counts it. */
  readonly row: number;
  readonly value: Metres;
  /** What stands there now; blank where nothing does. */
  readonly before: string;
  readonly after: string;
};

/** Thousandths: adjusted elevations keep one decimal more than they were read with. */
const DECIMALS = 3;

/**
 * Adjusted elevations for the locations and measuring points named as the
 * stations are; the start, which was known, is offered to nothing. A row that
 * has the elevation already is left out.
 *
 * @param unit  the site's vertical unit, that its tables are written in
 */
export function offersOf(
  stations: readonly AdjustedStation[],
  site: Site,
  unit: LengthUnit,
): Offer[] {
  return stations.slice(1).flatMap(({ point, elevation: { value } }): Offer[] => {
    const after = inUnits(value, unit).toFixed(DECIMALS);
    const location = site.locations.get(point);
    const mark = site.measuringPoints.get(point);
    const offers: Offer[] = [
      ...(location
        ? [
            {
              point,
              table: 'locations' as const,
              row: location.row,
              value,
              before: location.ground_elevation?.text ?? '',
              after,
            },
          ]
        : []),
      ...(mark
        ? [
            {
              point,
              table: 'measuring_points' as const,
              row: mark.row,
              value,
              before: mark.elevation?.text ?? '',
              after,
            },
          ]
        : []),
    ];
    return offers.filter(({ before }) => before === '' || Number(before) !== Number(after));
  });
}

/** The offers taken: ground of locations as surveyed, elevation of marks; one step. Null where there is none. */
export function takeOffers(offers: readonly Offer[]): Edit | null {
  if (offers.length === 0) return null;
  const edits = (['locations', 'measuring_points'] as const).flatMap((table): Edit[] => {
    const cells = offers
      .filter((offer) => offer.table === table)
      .flatMap(({ row, after }) =>
        table === 'locations'
          ? [
              { row: row - 2, column: 'ground_elevation', text: after },
              { row: row - 2, column: 'ground_how', text: 'surveyed' },
            ]
          : [{ row: row - 2, column: 'elevation', text: after }],
      );
    return cells.length > 0 ? [{ kind: 'write-cells', table, cells }] : [];
  });
  return { kind: 'together', edits };
}
