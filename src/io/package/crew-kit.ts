import { usualKit, type CrewKit } from '../../domain/layout/crew-kit';
import type { LengthUnit } from '../../domain/units';

/** What a crew brings, out of a descriptor; null where it is not such. What is left out is as usual. */
export function readKit(given: unknown, unit: LengthUnit): CrewKit | null {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) return null;
  const usual = usualKit(unit);
  const kit: Record<string, number | string> = { ...usual };
  for (const [name, value] of Object.entries(given)) {
    if (!Object.hasOwn(usual, name)) continue;
    const isAmount = typeof value === 'number' && Number.isFinite(value) && value >= 0;
    if (typeof kit[name] === 'number' ? !isAmount : typeof value !== 'string') return null;
    kit[name] = value as number | string;
  }
  return kit as CrewKit;
}
