/**
 * Sites of the sizes to plan for, made up and always the same: each location has
 * a screen, so many of them are gauged and sampled in each event, and each sample
 * has results of up to 20 analytes. As the files of their folder.
 */
import { readFileSync } from 'node:fs';
import { strToU8, zipSync } from 'fflate';

const FEDERAL = readFileSync(
  new URL('../../src/io/levels/federal-drinking-water-2024.csv', import.meta.url),
  'utf8',
);

/** The federal levels, and the same at a tenth under another name. */
const levelSets = () => {
  const [header = '', ...rows] = FEDERAL.trimEnd().split('\n');
  const tenth = rows.map(
    (row) =>
    row.replace(/^[^,]*,/, 'A tenth,').replace(/,(\d[\d.]*),(mg\/L|ug\/L)/, (_, value: string, unit: string) => `,${Number(value) / 10},${unit}`), // prettier-ignore
  );
  return `${[header, ...rows, ...tenth].join('\n')}\n`;
};

export type SiteSize = {
  readonly locations: number;
  readonly events: number;
  /** Screens gauged and sampled in each event. */
  readonly gauged: number;
  /** Samples of each in an event. */
  readonly samples: number;
  readonly results: number;
};

export const BIG: SiteSize = {
  locations: 5_000,
  events: 200,
  gauged: 250,
  samples: 1,
  results: 1_000_000,
};

export const USUAL: SiteSize = {
  locations: 40,
  events: 6,
  gauged: 40,
  samples: 2,
  results: 9_600,
};

const ANALYTES = [
  ['benzene', '71-43-2'],
  ['toluene', '108-88-3'],
  ['ethylbenzene', '100-41-4'],
  ['trichloroethylene', '79-01-6'],
  ['tetrachloroethylene', '127-18-4'],
  ['vinyl chloride', '75-01-4'],
  ['cis-1,2-dichloroethylene', '156-59-2'],
  ['trans-1,2-dichloroethylene', '156-60-5'],
  ['1,1-dichloroethylene', '75-35-4'],
  ['1,2-dichloroethane', '107-06-2'],
  ['carbon tetrachloride', '56-23-5'],
  ['chlorobenzene', '108-90-7'],
  ['styrene', '100-42-5'],
  ['naphthalene', '91-20-3'],
  ['arsenic', '7440-38-2'],
  ['cadmium', '7440-43-9'],
  ['chromium', '7440-47-3'],
  ['lead', '7439-92-1'],
  ['selenium', '7782-49-2'],
  ['mercury', '7439-97-6'],
] as const;

const pad = (n: number, width: number) => String(n).padStart(width, '0');
const cell = (text: string) => (text.includes(',') ? `"${text}"` : text);

/** The site's folder as a zip. */
export function siteOfSize(size: SiteSize): Uint8Array {
  let state = 20_260_531;
  const random = () => (state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0) / 2 ** 32;
  const lines = (header: string, rows: readonly string[]) => `${header}\n${rows.join('\n')}\n`;

  const ground = (east: number, north: number) => 102 - east * 0.002 - north * 0.001;
  const places = Array.from({ length: size.locations }, (_, i) => ({
    id: `MW-${pad(i + 1, 4)}`,
    east: 500_000 + (i % 80) * 20 + random() * 8,
    north: 4_800_000 + Math.floor(i / 80) * 20 + random() * 8,
  }));
  const surface = (i: number) => {
    const { east = 0, north = 0 } = places[i] ?? {};
    return ground(east - 500_000, north - 4_800_000);
  };
  const locations = places.map(
    ({ id, east, north }, i) =>
      `${id},${east.toFixed(2)},${north.toFixed(2)},${surface(i).toFixed(2)},surveyed,monitoring well,installed`,
  );
  const screens = places.map(({ id }) => `${id},${id},9.0,3.0,shallow`);
  const marks = places.map(
    ({ id }, i) => `${id}-M,${id},1975-01-01,Rim,${(surface(i) + 0.8).toFixed(3)},0.01`,
  );
  const days = Array.from({ length: size.events }, (_, event) => {
    const year = 1976 + Math.floor(event / 4);
    return `${year}-${pad(3 * (event % 4) + 2, 2)}-10`;
  });
  const events = days.map(
    (day, event) => `E-${pad(event + 1, 3)},Round ${event + 1},${day},${day}`,
  );
  const levels: string[] = [];
  const samples: string[] = [];
  const rows: string[] = [];
  const perEvent = size.results / size.events;
  const apart = Math.floor(size.locations / size.gauged);
  for (let event = 0; event < size.events; event++) {
    const name = `E-${pad(event + 1, 3)}`;
    const day = days[event] ?? '';
    for (let k = 0; k < size.gauged; k++) {
      const at = (event * 97 + k * apart) % size.locations;
      const place = places[at];
      if (!place) continue;
      const head = surface(at) - 4 - (place.east - 500_000) * 0.001 + random() * 0.02;
      const depth = surface(at) + 0.8 - head;
      levels.push(
        `${place.id},${name},${place.id}-M,${day}T09:${pad(k % 60, 2)},${depth.toFixed(2)},static`,
      );
      for (let which = 0; which < size.samples; which++) {
        const sample = `${place.id}-${day}${which > 0 ? `-${which + 1}` : ''}`;
        samples.push(`${sample},${place.id},${name},${day}T1${which}:00,field sample,groundwater`);
        for (let a = 0; a < ANALYTES.length && rows.length < (event + 1) * perEvent; a++) {
          const [analyte = '', cas = ''] = ANALYTES[a] ?? [];
          const seen = random() < 0.4;
          const value = (10 ** (random() * 4 - 1.5)).toPrecision(3);
          const limit = ['0.5', '1.0', '2.0'][Math.floor(random() * 3)] ?? '1.0';
          const letter = seen ? (random() < 0.2 ? 'J' : '') : 'U';
          rows.push(
            `${sample},${cas},${cell(analyte)},${seen ? Number(value) : `<${limit}`},ug/L,${letter},${limit},8260D`,
          );
        }
      }
    }
  }
  const descriptor = {
    title: 'A big site',
    downgradient: {
      format: 1,
      grid: { name: 'NAD83 / UTM zone 12N', code: 'EPSG:26912', unit: 'm' },
      verticalUnit: 'm',
      verticalDatum: 'NAVD 88',
      soundingTolerance: 0.06,
    },
  };
  const files: Record<string, string> = {
    'datapackage.json': JSON.stringify(descriptor),
    'locations.csv': lines(
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      locations,
    ),
    'screens.csv': lines('id,location,tip_depth,exposed_length,zone', screens),
    'measuring_points.csv': lines('id,screen,from_day,description,elevation,accuracy', marks),
    'events.csv': lines('id,title,first_day,last_day', events),
    'screening_levels.csv': levelSets(),
    'water_levels.csv': lines('screen,event,measuring_point,time,depth_to_water,status', levels),
    'samples.csv': lines('id,screen,event,time,kind,matrix', samples),
    'results.csv': lines(
      'sample,cas,analyte,value,unit,lab_qualifier,reporting_limit,method',
      rows,
    ),
  };
  return zipSync(
    Object.fromEntries(Object.entries(files).map(([name, text]) => [name, strToU8(text)])),
    { level: 1 },
  );
}
