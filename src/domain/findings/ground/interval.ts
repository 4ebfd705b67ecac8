import { cell } from '../../site/cite';
import type { Location, Screen } from '../../site/schema';
import type { Site } from '../../site/site';
import { intervalOf, noIntervalWords } from '../../water/screen-interval';
import type { Finding, Rule } from '../finding';
import { counted, finding, listed, said } from '../words';

type Standing = { readonly screen: Screen; readonly location: Location };

/** Screens that were opened: not those of points still to be pushed, nor of gauges. */
const opened = (site: Site): Standing[] =>
  [...site.screens.values()].flatMap((screen) => {
    const location = site.locations.get(screen.location);
    return location &&
      location.status !== 'planned' &&
      location.status !== 'dropped' &&
      location.kind !== 'staff gauge'
      ? [{ screen, location }]
      : [];
  });

/** Intervals that cannot be, one by one; and, in one note, those that are not known. */
export const interval: Rule = ({ site }) => {
  const unknown: Standing[] = [];
  const impossible = opened(site).flatMap(({ screen, location }): Finding[] => {
    const found = intervalOf(screen, location);
    if (found.ok) return [];
    if (found.problem === 'no-tip-depth' || found.problem === 'no-exposed-length') {
      unknown.push({ screen, location });
      return [];
    }
    return [
      finding('interval that cannot be', screen.id, null, {
        severity: 'caution',
        who: [location.id],
        says: `The interval of ${screen.id} cannot be as recorded: ${noIntervalWords(found.problem)}.`,
        todo: 'Compare tip depth, retraction, screen length and exposed length with the push log.',
        cells: (['tip_depth', 'retraction', 'screen_length', 'exposed_length'] as const).map((column) => cell('screens', screen, column)), // prettier-ignore
      }),
    ];
  });
  return unknown.length === 0
    ? impossible
    : [
        ...impossible,
        finding('interval not known', 'screens', null, {
          severity: 'note',
          who: [...new Set(unknown.map(({ location }) => location.id))],
          says: `The interval of ${counted(unknown.length, 'screen')} is not known (${listed(unknown.map(({ screen }) => screen.id))}): which zone ${unknown.length === 1 ? 'it reads' : 'they read'} is taken on trust.`,
          todo: 'Look for drilling records; post the heads as of unknown interval.',
          cells: unknown.map(({ screen }) => cell('screens', screen, 'tip_depth')),
        }),
      ];
};

/** Sounded inside after retraction against where the base should be: the screen may have ridden up with the rods. */
export const sounding: Rule = ({ site }) =>
  opened(site).flatMap(({ screen, location }): Finding[] => {
    const off = soundingOff(screen, location);
    if (off === null || Math.abs(off) <= site.settings.soundingTolerance + HAIR) return [];
    const accepted = site.decisions.find(
      ({ what, on }) => what === 'accept interval' && on === screen.id,
    );
    const { sounded_depth: sounded } = screen;
    return [
      finding('sounded depth', screen.id, null, {
        severity: accepted ? 'note' : 'caution',
        who: [location.id],
        says: `${screen.id} sounded at ${sounded?.text ?? ''} ${sounded?.unit ?? ''}, ${said(site, Math.abs(off))} ${off < 0 ? 'short of' : 'below'} the base of its screen: the interval is uncertain${accepted ? `, and was accepted: ${accepted.reason}` : ''}.`,
        todo:
          off < 0
            ? 'The screen may have hung up and ridden with the rods, or silt has come in; mark what was sampled as of uncertain depth.'
            : 'Compare tip depth and tool offset with the push log.',
        cells: [cell('screens', screen, 'sounded_depth'), cell('screens', screen, 'tip_depth')],
      }),
    ];
  });

const HAIR = 1e-9;

/** Sounded less computed depth of the base, metres, positive deeper; null where either is not known. */
export function soundingOff(screen: Screen, location: Location): number | null {
  const found = intervalOf(screen, location);
  return found.ok && screen.sounded_depth
    ? screen.sounded_depth.value - found.value.baseDepth.value
    : null;
}
