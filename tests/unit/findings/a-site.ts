import { examine, findingsOf } from '../../../src/domain/findings/findings-of';
import type { ReviewedFinding } from '../../../src/domain/findings/finding';
import type { Settings } from '../../../src/domain/site/settings';
import type { Site } from '../../../src/domain/site/site';
import type { TableName } from '../../../src/domain/site/schema';
import { siteFrom } from '../site-from';

/** A well as a field form and a survey have it, in feet. */
export type AWell = {
  readonly id: string;
  readonly easting: number;
  readonly northing: number;
  readonly ground?: string;
  readonly mark?: string;
  readonly depth: string;
  readonly status?: string;
  readonly time?: string;
  readonly product?: string;
  readonly density?: string;
  readonly zone?: string;
  readonly kind?: string;
  readonly tip?: string;
  readonly description?: string;
  readonly use?: string;
  readonly why?: string;
};

/**
 * Eight wells on a plane falling 0.004 toward 120° but for a hundredth of a
 * foot: heads near 96 ft, marks two and a half feet up.
 */
export const GOOD: readonly AWell[] = [
  { id: 'W-1', easting: 1000, northing: 5400, mark: '103.12', depth: '5.00' }, // head 98.12
  { id: 'W-2', easting: 1300, northing: 5420, mark: '102.60', depth: '5.48' }, // 97.12
  { id: 'W-3', easting: 1600, northing: 5380, mark: '102.48', depth: '6.48' }, // 96.00
  { id: 'W-4', easting: 1050, northing: 5150, mark: '102.75', depth: '5.31' }, // 97.44
  { id: 'W-5', easting: 1320, northing: 5100, mark: '102.39', depth: '6.00' }, // 96.39
  { id: 'W-6', easting: 1580, northing: 5160, mark: '102.66', depth: '7.04' }, // 95.62
  { id: 'W-7', easting: 1010, northing: 5000, mark: '102.50', depth: '5.22' }, // 97.28
  { id: 'W-8', easting: 1570, northing: 5010, mark: '102.71', depth: '7.35' }, // 95.36
];

export const without = (id: string, wells = GOOD) => wells.filter((well) => well.id !== id);

/** The wells with one of them changed. */
export const but = (id: string, change: Partial<AWell>, wells = GOOD): readonly AWell[] =>
  wells.map((well) => (well.id === id ? { ...well, ...change } : well));

type Lines = Partial<Record<TableName, readonly string[]>>;

/** Each screen 5 ft long, its base 20 ft down, set in August; gauged on 1 September within two hours. */
export function linesOf(wells: readonly AWell[], event = 'E1', day = '2025-09-01'): Lines {
  return {
    events: ['id,title,first_day,last_day', `${event},Round,${day},${day}`],
    locations: [
      'id,easting,northing,ground_elevation,ground_how,kind,status',
      ...wells.map(
        (w) =>
          `${w.id},${w.easting},${w.northing},${w.ground ?? '100.2'},surveyed,${w.kind ?? 'monitoring well'},${w.kind === 'direct push' ? 'pushed' : 'installed'}`,
      ),
    ],
    screens: [
      'id,location,tip_depth,tool_offset,exposed_length,zone,set_time',
      ...wells.map(
        (w) => `${w.id},${w.id},${w.tip ?? '20.3'},0.3,5.0,${w.zone ?? 'sand'},2025-08-01T10:00`,
      ),
    ],
    measuring_points: [
      'id,screen,from_day,description,elevation,accuracy,surveyor',
      ...wells.map(
        (w) =>
          `${w.id}-MP,${w.id},2025-08-02,${w.description ?? 'Notch on casing'},${w.mark ?? ''},0.01,R.O.`,
      ),
    ],
    water_levels: levelsOf(wells, event, day),
  };
}

export const levelsOf = (wells: readonly AWell[], event: string, day: string) => [
  'screen,event,measuring_point,time,depth_to_water,depth_to_product,product_density,status,use,why',
  ...wells.map(
    (w, i) =>
      `${w.id},${event},${w.id}-MP,${w.time ?? `${day}T09:${String(10 + 5 * i)}`},${w.depth},${w.product ?? ''},${w.density ?? ''},${w.status ?? 'static'},${w.use ?? ''},${w.why ?? ''}`,
  ),
];

/** A site of such wells, with tables beside it or in its place. */
export const siteOfWells = (
  wells: readonly AWell[],
  tables: Lines = {},
  settings: Partial<Settings> = {},
): Site => siteFrom({ ...linesOf(wells), ...tables }, settings);

export const found = (site: Site, event: string | null = 'E1') => findingsOf(examine(site, event));

/** Findings of one rule, by the name it has in decisions. */
export const ofRule = (all: readonly ReviewedFinding[], rule: string) =>
  all.filter((finding) => finding.rule === rule);

/** The one finding of a rule; fails the test where there is none or more than one. */
export function one(all: readonly ReviewedFinding[], rule: string): ReviewedFinding {
  const [first, ...more] = ofRule(all, rule);
  if (!first || more.length > 0)
    throw new Error(
      `expected one finding of “${rule}”, found ${first ? more.length + 1 : 0} among: ${all.map(({ about }) => about).join('; ')}`,
    );
  return first;
}
