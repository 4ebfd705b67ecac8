import type { DatumNote } from '../../domain/grid';
import type { Metres } from '../../domain/units';
import type { Definition } from './definition';
import { DATUMS_OF_STRINGS } from './figure';

/** A published shift to WGS 84, from the EPSG dataset. */
export type Shift = {
  /** EPSG:1175 */
  readonly operation: string;
  readonly name: string;
  readonly accuracy: Metres;
  /** Three or seven numbers, position vector: metres, arc-seconds, parts per million. */
  readonly towgs84: readonly number[];
  /** Where it is meant for. */
  readonly place: string;
};

/** How a grid's positions are shown over anything else; towgs84 null: as they are. */
export type DisplayDatum = { readonly towgs84: readonly number[] | null; readonly note: DatumNote };

const isZero = (towgs84: readonly number[]) => towgs84.every((n) => n === 0);

/** GRS 1980 and WGS 84 itself, whose datums lie within a metre or two of WGS 84. */
const isModern = ({ figure }: Definition) =>
  figure.a === 6378137 && Math.abs((figure.inverseFlattening ?? 0) - 298.2572) < 1e-4;

const asTheyAre = (name: string, note: string, accuracy: number | null = null): DisplayDatum => ({
  towgs84: null,
  note: { name, shifted: false, accuracy: accuracy as Metres | null, note },
});

/** For a grid of the list: by its published shift, or as it is. */
export function publishedShift(datum: string, shift: Shift | null, modern: boolean): DisplayDatum {
  if (datum === 'WGS 84') return asTheyAre(datum, 'The grid is on WGS 84 itself.');
  if (shift === null)
    return modern
      ? asTheyAre(
          datum,
          `${datum} is taken as WGS 84, without a published shift; the two agree within about 2 m.`,
        )
      : unshifted(datum, 'no shift to WGS 84 is known to this app');

  const by = `${shift.operation}, ${shift.name}, meant for: ${shift.place}`;
  const accuracy = `stated accuracy ${shift.accuracy} m`;
  if (isZero(shift.towgs84))
    return asTheyAre(datum, `${datum} is taken as WGS 84 (${by}); ${accuracy}.`, shift.accuracy);
  const kind = shift.towgs84.length === 3 ? 'a mean shift' : 'seven parameters';
  const note = `Positions on ${datum} are moved to WGS 84 by ${kind} (${by}); ${accuracy}.`;
  return {
    towgs84: shift.towgs84,
    note: { name: datum, shifted: true, accuracy: shift.accuracy, note },
  };
}

const unshifted = (datum: string, because: string) =>
  asTheyAre(
    datum,
    `Positions are taken unshifted: ${because}. They may be off by hundreds of metres; choosing the system by its code, or a +towgs84 in the string, mends that.`,
  );

/**
 * DMA mean shifts of NAD27 (EPSG dataset, operations 1173 and 1176), for
 * strings that give no better. A string says only where its central meridian
 * is, so the note says where the shift holds.
 */
const NAD27_MEAN = [
  { west: -126, east: -66, where: 'the contiguous United States', operation: 'EPSG:1173', accuracy: 10, towgs84: [-8, 160, 176] }, // prettier-ignore
  { west: -172, east: -130, where: 'mainland Alaska', operation: 'EPSG:1176', accuracy: 12, towgs84: [-5, 135, 172] }, // prettier-ignore
];

function nad27(centralMeridian: number | null): DisplayDatum {
  const mean = NAD27_MEAN.find(
    ({ west, east }) =>
      centralMeridian !== null && centralMeridian >= west && centralMeridian <= east,
  );
  if (!mean)
    return unshifted(
      'NAD27',
      'NAD27 needs grid-shift files, which this app does not carry, and no mean shift is known for this part of the world',
    );
  return {
    towgs84: mean.towgs84,
    note: {
      name: 'NAD27',
      shifted: true,
      accuracy: mean.accuracy as Metres,
      note: `NAD27 needs grid-shift files, which this app does not carry. Positions are moved to WGS 84 by a mean shift for ${mean.where} (${mean.operation}), stated accuracy ${mean.accuracy} m there; elsewhere they may be off by tens of metres.`,
    },
  };
}

const centralMeridian = ({ projection }: Definition): number | null => {
  const zone = projection.get('zone');
  if (zone !== undefined) return 6 * Number(zone) - 183;
  const given = projection.get('lon_0') ?? projection.get('lonc');
  return given === undefined ? null : Number(given) + Number(projection.get('pm') ?? 0);
};

/**
 * For a projection string: by its own +towgs84, else by what PROJ means by its
 * +datum. A datum that would need a grid file is never passed over in silence:
 * NAD27 gets its mean shift, any other is shown unshifted and says so.
 */
export function shiftOfString(definition: Definition): DisplayDatum {
  const { towgs84, datum, gridFiles, figure } = definition;
  const name = datum ?? `the datum on ${figure.name}`;
  if (towgs84 && isZero(towgs84))
    return isModern(definition)
      ? asTheyAre(
          name,
          'The projection string takes its datum as WGS 84. Datums of that kind agree with it within about 2 m.',
        )
      : asTheyAre(
          name,
          `The projection string says that no shift is needed, which is unlikely on the ellipsoid ${figure.name}. Positions may be off by hundreds of metres.`,
        );
  if (towgs84)
    return {
      towgs84,
      note: {
        name,
        shifted: true,
        accuracy: null,
        note: `Positions are moved to WGS 84 by the +towgs84 numbers of the projection string, whose accuracy it does not state.`,
      },
    };

  if (datum === 'NAD27' || gridFiles.some((file) => /conus|alaska|ntv1_can|nadcon/i.test(file)))
    return nad27(centralMeridian(definition));
  const known = datum === null ? null : DATUMS_OF_STRINGS.get(datum)?.towgs84;
  if (gridFiles.length > 0 && !known)
    return unshifted(
      name,
      `the projection string asks for the grid-shift file ${gridFiles.join(', ')}, which this app does not carry`,
    );
  if (datum !== null && known) {
    if (datum === 'WGS84') return asTheyAre(datum, 'The grid is on WGS 84 itself.');
    if (isZero(known))
      return asTheyAre(datum, `${datum} is taken as WGS 84; the two agree within about 2 m.`);
    return {
      towgs84: known,
      note: {
        name: datum,
        shifted: true,
        accuracy: null,
        note: `Positions on ${datum} are moved to WGS 84 by the numbers that PROJ gives +datum=${datum}; accuracy a few metres at best, not stated.`,
      },
    };
  }
  return isModern(definition)
    ? asTheyAre(
        name,
        'The projection string names no datum. On this ellipsoid it is taken as WGS 84; NAD 83, ETRS89 and their like agree with it within about 2 m.',
      )
    : unshifted(name, 'the projection string names an ellipsoid but no datum');
}
