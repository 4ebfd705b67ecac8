import type { ReviewedFinding } from './finding';
import { counted, listed } from './words';

/**
 * What stands beside an arrow that serious findings speak against: how many are
 * open, that is, not accepted, and the points they are about. Null without any.
 */
export function seriousWords(findings: readonly ReviewedFinding[]): string | null {
  const open = findings.filter(
    ({ severity, accepted }) => severity === 'serious' && accepted === null,
  );
  if (open.length === 0) return null;
  const who = [...new Set(open.flatMap((finding) => finding.who))];
  return `${counted(open.length, 'serious finding')}${who.length > 0 ? `: ${listed(who)}` : ''}`;
}
