import { unitText } from '../../domain/show';
import { inUnits, metres, type LengthUnit } from '../../domain/units';
import { grouped, roundDown } from './graticule';

export type ScaleBar = {
  /** px from 0 to the last mark. */
  readonly length: number;
  /** px from 0, with the words at each mark, in order. */
  readonly marks: readonly { readonly at: number; readonly label: string }[];
};

/** A bar of a round length in the site's unit, at most `longest` px, in two halves. */
export function scaleBar(metresPerPixel: number, unit: LengthUnit, longest: number): ScaleBar {
  const round = roundDown(inUnits(metres(metresPerPixel * longest), unit));
  const length = metres(round, unit) / metresPerPixel;
  const decimals = Math.max(0, -Math.floor(Math.log10(round / 2) + 1e-9));
  return {
    length,
    marks: [
      { at: 0, label: '0' },
      { at: length / 2, label: grouped(round / 2, Number.isInteger(round / 2) ? 0 : decimals) },
      {
        at: length,
        label: `${grouped(round, Number.isInteger(round) ? 0 : decimals)} ${unitText(unit)}`,
      },
    ],
  };
}
