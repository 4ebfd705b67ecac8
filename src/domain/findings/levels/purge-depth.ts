import { groupBy } from '../../group';
import { cell } from '../../site/cite';
import type { Row } from '../../site/schema';
import type { Site } from '../../site/site';
import { metres, type Metres } from '../../units';
import type { GaugedScreen } from '../../water/event-heads';
import type { Finding, Rule } from '../finding';
import { counted, finding, middleOf, said, timeSaid } from '../words';

/**
 * A drawdown past this is not what low-flow purging makes: R. W. Puls and M. J.
 * Barcelona, 1996, Low-flow (minimal drawdown) ground-water sampling procedures,
 * EPA/540/S-95/504 (value from memory: under 0.1 m).
 */
const LOW_FLOW = metres(0.1);

/** Fewer wells purged beside it say nothing of what is usual. */
const FEWEST = 3;

/** A depth gauged, and the depth to water at the first reading while the same well was purged. */
export type Purged = {
  readonly gauged: GaugedScreen;
  readonly reading: Row<'purge_readings'>;
  /** Depth while purged. */
  readonly depth: Metres;
  /** That less the depth gauged: positive where the water stood lower. */
  readonly drawdown: Metres;
  /** The middle of the drawdowns of the other wells of the event; null where they are too few. */
  readonly usual: Metres | null;
  /** Other wells purged. */
  readonly others: number;
};

const kept = new WeakMap<
  Site['purgeReadings'],
  ReadonlyMap<string, readonly Row<'purge_readings'>[]>
>();

const named = (screen: string, event: string) => JSON.stringify([screen, event]);

function purgingOf({ purgeReadings }: Site, screen: string, event: string) {
  const made = kept.get(purgeReadings) ?? groupBy(purgeReadings, (r) => named(r.screen, r.event));
  kept.set(purgeReadings, made);
  const withDepth = (made.get(named(screen, event)) ?? []).filter((r) => r.depth_to_water);
  return withDepth.toSorted((a, b) => a.time.localeCompare(b.time))[0] ?? null;
}

/** Wells of an event both gauged and purged, in the order of the readings; those with product are not compared. */
export function purgedIn(site: Site, heads: readonly GaugedScreen[]): readonly Purged[] {
  const all = heads.flatMap((gauged) => {
    const { depth_to_water: depth, depth_to_product: product } = gauged.reading;
    if (!depth || product || gauged.class !== 'well' || gauged.leftOut === 'read-again') return [];
    const reading = purgingOf(site, gauged.screen.id, gauged.reading.event);
    const purged = reading?.depth_to_water;
    if (!reading || !purged) return [];
    return [{ gauged, reading, depth: purged.value, drawdown: metres(purged.value - depth.value) }];
  });
  return all.map((one) => {
    const others = all.filter((other) => other !== one).map(({ drawdown }) => drawdown);
    const usual = others.length < FEWEST ? null : middleOf(others);
    return { ...one, usual: usual === null ? null : metres(usual), others: others.length };
  });
}

/** Lower or higher than the other wells of the event make likely, metres; 0 where it is not out of line. */
export function outOfLine({ drawdown, usual }: Purged): number {
  const beyond = drawdown - (usual ?? 0);
  return Math.abs(beyond) > LOW_FLOW ? beyond : 0;
}

/** "When it was purged (2026-09-23 07:59) the water stood 12.26 ft down, 1.04 ft lower than gauged; …", a sentence. */
export function purgedWords(site: Site, { reading, depth, drawdown, usual, others }: Purged) {
  const lower = (by: number) => `${said(site, Math.abs(by))} ${by < 0 ? 'higher' : 'lower'}`;
  const at = timeSaid(reading.time);
  const beside =
    usual === null
      ? ''
      : `; in the other ${counted(others, 'well')} purged ${lower(usual)}, by the middle of them`;
  return `When it was purged (${at}) the water stood ${said(site, depth)} down, ${lower(drawdown)} than gauged${beside}.`;
}

/** A depth gauged that the purging of the same event does not bear out. */
export const purgeDepth: Rule = ({ site, event, heads }) =>
  purgedIn(site, heads).flatMap((purged): Finding[] => {
    const { gauged, reading } = purged;
    if (outOfLine(purged) === 0) return [];
    const { screen, location } = gauged;
    return [
      finding('gauged and purged apart', screen.id, event, {
        severity: gauged.leftOut === null ? 'caution' : 'note',
        who: [location.id],
        says: `${screen.id} was gauged at ${said(site, gauged.reading.depth_to_water?.value ?? 0)}. ${purgedWords(site, purged)}`,
        todo: 'Compare the depth gauged with the field form; a well that yields little, or another mark while purging, would explain it too.',
        cells: [
          cell('water_levels', gauged.reading, 'depth_to_water'),
          cell('purge_readings', reading, 'depth_to_water'),
        ],
      }),
    ];
  });
