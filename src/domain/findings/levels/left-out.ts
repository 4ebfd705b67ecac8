import { cell } from '../../site/cite';
import { decisionOn, signedWords } from '../../water/decided';
import { leftOutWords, type LeftOut } from '../../water/event-heads';
import type { Finding, Rule } from '../finding';
import { leftOutEvidence } from '../planes/left-out-evidence';
import { finding, timeSaid } from '../words';

/** Readings somebody left out or put in by hand, with the reason; without one it is more than a note. */
export const decidedByHand: Rule = ({ site, event, heads, flows }) =>
  heads.flatMap((one): Finding[] => {
    const { screen, location, reading, leftOut, because } = one;
    const out = leftOut === 'excluded' || leftOut === 'marked-not-used';
    const decision = decisionOn(site, screen.id, reading.event);
    const put = leftOut === null && (reading.use === true || decision?.what === 'include');
    if ((!out && !put) || one.class === 'push') return [];
    const reason = because?.replace(/\.$/, '') ?? null;
    const flow = flows.find(({ zone }) => zone === screen.zone);
    const evidence = out && flow ? leftOutEvidence(site, flow, one) : null;
    return [
      finding(out ? 'left out by hand' : 'counted by hand', screen.id, event, {
        severity: reason === null ? 'caution' : 'note',
        who: [location.id],
        says: [
          `${screen.id} ${out ? 'is left out of' : 'was put into'} the plane by hand${decision ? signedWords(decision) : ''}${reason === null ? ', without a reason' : `: ${reason}`}.`,
          ...(evidence?.says ?? []),
        ].join(' '),
        todo: reason === null ? 'Write the reason down.' : (evidence?.todo ?? 'Check the reason.'),
        cells: [
          decision ? cell('decisions', decision, 'reason') : cell('water_levels', reading, 'use'),
          ...(evidence?.cells ?? []),
        ],
        ...(evidence && evidence.leaveOut.length > 0 ? { leaveOut: evidence.leaveOut } : {}),
      }),
    ];
  });

const SAID_HERE: readonly LeftOut[] = ['obstructed', 'no-coordinates', 'supply-well', 'no-zone'];

const TODO: Partial<Record<LeftOut, string>> = {
  'no-coordinates': 'Write its easting and northing.',
  'no-zone':
    'Give its screen the zone it is open to, under “Flow” or in the tables: Screens, column zone. If it crosses a contact, post it with its reason.',
};

/** A reading that cannot be used for a reason no other rule speaks of. */
export const unusable: Rule = ({ event, heads }) =>
  heads.flatMap(({ screen, location, reading, leftOut, class: kind }): Finding[] =>
    leftOut !== null && SAID_HERE.includes(leftOut) && kind !== 'push'
      ? [
          finding('level not usable', screen.id, event, {
            severity: leftOut === 'no-coordinates' ? 'caution' : 'note',
            who: [location.id],
            says: `The level of ${screen.id} is not in a plane: ${leftOutWords(leftOut)}.`,
            todo: TODO[leftOut] ?? 'Post it with its reason.',
            cells: [
              leftOut === 'no-coordinates'
                ? cell('locations', location, 'easting')
                : cell('water_levels', reading, 'status'),
            ],
          }),
        ]
      : [],
  );

/** A level that could not be read when tried once more: the reading that counts was taken before or after. */
export const triedAgain: Rule = ({ event, heads }) =>
  heads.flatMap(({ screen, location, reading, leftOut }): Finding[] => {
    if (leftOut !== 'read-again' || reading.status !== 'obstructed') return [];
    const counts = heads.find((one) => one.screen === screen && one.leftOut !== 'read-again');
    if (!counts?.head) return [];
    const remark = reading.note ?? reading.why;
    const then = counts.reading.time === null ? '' : ` of ${timeSaid(counts.reading.time)}`;
    return [
      finding('could not be read once', screen.id, event, {
        severity: 'note',
        who: [location.id],
        says: `${screen.id} could not be read${reading.time === null ? '' : ` at ${timeSaid(reading.time)}`}${remark === null ? '' : ` (${remark})`}; its reading${then} stands.`,
        todo: 'Ask whether what was in the way spoiled that reading too, and whether a later one is missing.',
        cells: [
          cell('water_levels', reading, 'status'),
          cell('water_levels', counts.reading, 'depth_to_water'),
        ],
      }),
    ];
  });
