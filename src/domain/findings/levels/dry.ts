import { cell } from '../../site/cite';
import { intervalOf } from '../../water/screen-interval';
import { measuringPointElevation } from '../../water/measuring-point';
import type { GaugedScreen } from '../../water/event-heads';
import type { Site } from '../../site/site';
import type { Rule } from '../finding';
import { feet, finding, said } from '../words';

const RULE = 'dry or below the screen';

/** Water this little above the base may be what stands in the sump. Common practice, no source. */
const IN_THE_SUMP = feet(0.1);

/** A screen with no water in it, with its level below its base, or with hardly any over it. */
export const dry: Rule = ({ site, event, heads }) =>
  heads.flatMap((one) => {
    const base = baseOf(one);
    const says = one.leftOut === 'dry' ? dryWords(site, one, base) : shallowWords(site, one, base);
    if (says === null) return [];
    const { screen, location, reading } = one;
    return [
      finding(RULE, screen.id, event, {
        severity: one.class === 'push' && reading.status === 'dry' ? 'note' : 'caution',
        who: [location.id],
        says,
        todo:
          reading.status === 'dry'
            ? 'Post it as dry; a dry screen only says that the water is below its base.'
            : 'Sound the well, compare with its depth, and mark it dry if the tape met the bottom.',
        cells: [
          cell('water_levels', reading, reading.status === 'dry' ? 'status' : 'depth_to_water'),
          cell('screens', screen, 'tip_depth'),
        ],
      }),
    ];
  });

function baseOf({ screen, location }: GaugedScreen): number | null {
  const interval = intervalOf(screen, location);
  return (interval.ok && interval.value.baseElevation?.value) || null;
}

function dryWords(
  site: Site,
  { screen, reading, measuringPoint }: GaugedScreen,
  base: number | null,
) {
  if (reading.status === 'dry')
    return `${screen.id} was dry${base === null ? '' : `: the water is below the base of its screen at ${said(site, base)}`}.`;
  const mark = measuringPoint && measuringPointElevation(site, measuringPoint);
  const depth = reading.depth_to_water;
  if (!mark?.ok || !depth) return `The water in ${screen.id} is below its screen.`;
  return `The level read in ${screen.id}, ${said(site, mark.elevation.value - depth.value)}, is below the base of its screen${base === null ? '' : ` at ${said(site, base)}`}: the tape met the bottom, or the depth or a mark is wrong.`;
}

function shallowWords(site: Site, { screen, head, leftOut }: GaugedScreen, base: number | null) {
  if (!head || base === null || leftOut !== null) return null;
  const over = head.value - base;
  return over < IN_THE_SUMP
    ? `The level in ${screen.id} is only ${said(site, over)} above the base of its screen: it may be what is left in the sump.`
    : null;
}
