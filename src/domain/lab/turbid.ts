import { groupBy } from '../group';
import { cell } from '../site/cite';
import type { Row, Sample } from '../site/schema';
import type { Site } from '../site/site';
import type { Source } from '../work';
import { keysOfGroup } from './analyte-groups';
import { clearBelowOf } from './lab-settings';
import type { Reading } from './reading';
import type { SiteReading } from './site-results';

/** Why the water of a sample is called turbid, and the cells that say so. */
export type Turbid = { readonly says: string; readonly cells: readonly Source[] };

const NONE: readonly Row<'purge_readings'>[] = [];

const NOT_CLEAR = /turbid|did not clear|cloudy|muddy/i;

const kept = new WeakMap<
  object,
  { readonly against: readonly unknown[]; readonly turbid: ReadonlyMap<string, Turbid> }
>();

/** The field samples taken before the water had cleared, by id. */
export function turbidSamples(site: Site): ReadonlyMap<string, Turbid> {
  const against = [site.purgeReadings, clearBelowOf(site.settings)];
  const before = kept.get(site.samples);
  if (before?.against.every((part, i) => part === against[i])) return before.turbid;
  const purged = groupBy(site.purgeReadings, ({ screen, event }) => `${screen}|${event}`);
  const turbid = new Map<string, Turbid>();
  for (const sample of site.samples.values()) {
    if (sample.kind !== 'field sample') continue;
    // Most samples of a large site have neither readings nor a note.
    const here =
      purged.size === 0 ? NONE : (purged.get(`${sample.screen ?? ''}|${sample.event}`) ?? NONE);
    if (here.length === 0 && sample.note === null) continue;
    const doubt = cloudy(sample, here, clearBelowOf(site.settings));
    if (doubt) turbid.set(sample.id, doubt);
  }
  kept.set(site.samples, { against, turbid });
  return turbid;
}

function cloudy(
  sample: Sample,
  purged: readonly Row<'purge_readings'>[],
  clear: number,
): Turbid | null {
  // Days alone are compared as days: a reading of the same day may be before or after.
  const after = (time: string) => {
    const [one, other] = [time, sample.time ?? ''];
    const length = one.length < 16 || other.length < 16 ? 10 : 16;
    return sample.time !== null && one.slice(0, length) > other.slice(0, length);
  };
  const last = purged
    .filter(({ time, turbidity }) => turbidity !== null && !after(time))
    .toSorted((a, b) => a.time.localeCompare(b.time))
    .at(-1);
  if (last?.turbidity && last.turbidity.value > clear)
    return {
      says: `the last reading before it was ${last.turbidity.text} NTU, and ${clear} NTU is called clear`,
      cells: [cell('purge_readings', last, 'turbidity')],
    };
  if (!last && NOT_CLEAR.test(sample.note ?? ''))
    return {
      says: `its note says “${sample.note ?? ''}”`,
      cells: [cell('samples', sample, 'note')],
    };
  return null;
}

/**
 * Organic compounds that cling to particles, by CAS number: polycyclic aromatic
 * hydrocarbons, PCBs, phthalates and chlorinated pesticides. Common practice, no source.
 */
const CLINGING = new Set([
  '50-32-8', // benzo(a)pyrene
  '56-55-3', // benz(a)anthracene
  '205-99-2', // benzo(b)fluoranthene
  '207-08-9', // benzo(k)fluoranthene
  '218-01-9', // chrysene
  '53-70-3', // dibenz(a,h)anthracene
  '193-39-5', // indeno(1,2,3-cd)pyrene
  '191-24-2', // benzo(g,h,i)perylene
  '206-44-0', // fluoranthene
  '129-00-0', // pyrene
  '85-01-8', // phenanthrene
  '120-12-7', // anthracene
  '117-81-7', // bis(2-ethylhexyl) phthalate
  '1336-36-3', // polychlorinated biphenyls
  '57-74-9', // chlordane
  '76-44-8', // heptachlor
  '1024-57-3', // heptachlor epoxide
  '118-74-1', // hexachlorobenzene
  '72-43-5', // methoxychlor
  '8001-35-2', // toxaphene
  '1746-01-6', // 2,3,7,8-TCDD
]);

/** Whether turbid water may raise a result: total metals, and what clings to particles. */
export const clings = ({ key, result }: Pick<Reading, 'key' | 'result'>): boolean =>
  result.fraction !== 'dissolved' && (keysOfGroup('Metals').has(key) || CLINGING.has(key));

/** Whether a result may be too high because its water was turbid. */
export const raisedByParticles = (
  site: Site,
  { sample, reading }: Pick<SiteReading, 'sample'> & { reading: Pick<Reading, 'key' | 'result'> },
): boolean => turbidSamples(site).has(sample.id) && clings(reading);
