import { cell } from '../../site/cite';
import type { Rule } from '../finding';
import { finding, said } from '../words';

/** A head above the ground: an artesian well, or a number typed wrong. */
export const headAboveGround: Rule = ({ site, event, heads }) =>
  heads.flatMap((one) => {
    const { screen, location, reading, head } = one;
    const ground = location.ground_elevation;
    if (!head || !ground || one.class === 'gauge' || location.ground_how === 'none') return [];
    const over = head.value - ground.value;
    if (over <= 0) return [];
    return [
      finding('head above ground', screen.id, event, {
        severity: reading.status === 'flowing' ? 'note' : 'caution',
        who: [location.id],
        says: `The head in ${screen.id}, ${said(site, head.value)}, is ${said(site, over)} above the ground at ${said(site, ground.value)}: it flows, or a number is wrong.`,
        todo: 'Ask whether water stood above ground there; if not, look for a slip in the depth, the mark or the ground elevation.',
        cells: [
          cell('water_levels', reading, 'depth_to_water'),
          cell('locations', location, 'ground_elevation'),
        ],
      }),
    ];
  });

/** A depth below zero: the water stood above the mark it was read from. */
export const levelAboveMark: Rule = ({ event, heads }) =>
  heads.flatMap(({ screen, location, reading, leftOut }) => {
    const depth = reading.depth_to_water;
    if (!depth || depth.value >= 0 || reading.status === 'flowing') return [];
    return [
      finding('level above the measuring point', screen.id, event, {
        severity: leftOut === null ? 'serious' : 'caution',
        who: [location.id],
        says: `The depth to water in ${screen.id} is ${depth.text.replace('-', '−')} ${depth.unit}: the water would stand above the mark it is read from.`,
        todo: 'Depths are positive down from the mark. If the well flows, set its status to flowing; else take the sign away.',
        cells: [cell('water_levels', reading, 'depth_to_water')],
      }),
    ];
  });
