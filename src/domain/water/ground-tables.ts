/**
 * Published ranges of hydraulic conductivity and porosity, to choose from where
 * nothing was measured. They are orders of magnitude: one measurement at the
 * site is worth more than the table.
 */
import type { MetresPerDay } from './seepage';

export type Publication = {
  readonly text: string;
  /** How the numbers reached this table. */
  readonly seen: 'as quoted in a public report' | 'from memory';
};

export type ConductivityRow = {
  readonly ground: string;
  readonly low: MetresPerDay;
  readonly high: MetresPerDay;
};

export type ConductivityTable = {
  readonly source: Publication;
  readonly rows: readonly ConductivityRow[];
};

/** Porosities as parts of one; specific yield where the publication has it. */
export type PorosityRow = {
  readonly ground: string;
  readonly low: number;
  readonly high: number;
  readonly specificYield: number | null;
};

export type PorosityTable = { readonly source: Publication; readonly rows: readonly PorosityRow[] };

const DAY = 86_400; // seconds

const conductivity = (ground: string, low: number, high: number, perUnit = 1): ConductivityRow => ({
  ground,
  low: (low * perUnit) as MetresPerDay,
  high: (high * perUnit) as MetresPerDay,
});

const porosity = (
  ground: string,
  low: number,
  high = low,
  specificYield: number | null = null,
): PorosityRow => ({
  ground,
  low: low / 100,
  high: high / 100,
  specificYield: specificYield === null ? null : specificYield / 100,
});

export const CONDUCTIVITIES: readonly ConductivityTable[] = [
  {
    source: {
      text: 'H. Bouwer, 1978, Groundwater hydrology (m/d)',
      seen: 'as quoted in a public report',
    },
    rows: [
      conductivity('clay soils', 0.01, 0.2),
      conductivity('deep clay', 1e-8, 1e-2),
      conductivity('loam', 0.1, 1),
      conductivity('fine sand', 1, 5),
      conductivity('medium sand', 5, 20),
      conductivity('coarse sand', 20, 100),
      conductivity('gravel', 100, 1000),
      conductivity('sand and gravel mixes', 5, 100),
      conductivity('till', 0.001, 0.1),
      conductivity('sandstone', 0.001, 1),
      conductivity('shale', 1e-7, 1e-7),
    ],
  },
  {
    source: {
      text: 'R. A. Freeze and J. A. Cherry, 1979, Groundwater, Table 2.2, p. 29 (m/s)',
      seen: 'from memory',
    },
    rows: [
      conductivity('gravel', 1e-3, 1, DAY),
      conductivity('clean sand', 1e-5, 1e-2, DAY),
      conductivity('silty sand', 1e-7, 1e-3, DAY),
      conductivity('silt, loess', 1e-9, 1e-5, DAY),
      conductivity('till', 1e-12, 1e-6, DAY),
    ],
  },
];

export const POROSITIES: readonly PorosityTable[] = [
  {
    source: {
      text: 'R. C. Heath, 1983, Basic ground-water hydrology, USGS Water-Supply Paper 2220, pp. 7-9: porosity and specific yield',
      seen: 'from memory',
    },
    rows: [
      porosity('soil', 55, 55, 40),
      porosity('clay', 50, 50, 2),
      porosity('sand', 25, 25, 22),
      porosity('gravel', 20, 20, 19),
      porosity('limestone', 20, 20, 18),
      porosity('semiconsolidated sandstone', 11, 11, 6),
      porosity('granite', 0.1, 0.1, 0.09),
      porosity('young basalt', 11, 11, 8),
    ],
  },
  {
    source: {
      text: 'R. K. Linsley and others, 1982, Hydrology for engineers, Table 6-2: porosity',
      seen: 'as quoted in a public report',
    },
    rows: [
      porosity('clay', 45),
      porosity('sand', 35),
      porosity('gravel', 25),
      porosity('gravel and sand', 20),
      porosity('sandstone', 15),
      porosity('dense limestone or shale', 5),
      porosity('granite', 1),
    ],
  },
  {
    source: {
      text: 'R. A. Freeze and J. A. Cherry, 1979, Groundwater, Table 2.4: porosity',
      seen: 'from memory',
    },
    rows: [
      porosity('gravel', 25, 40),
      porosity('sand', 25, 50),
      porosity('silt', 35, 50),
      porosity('clay', 40, 70),
      porosity('sandstone', 5, 30),
      porosity('limestone', 0, 20),
      porosity('shale', 0, 10),
    ],
  },
];
