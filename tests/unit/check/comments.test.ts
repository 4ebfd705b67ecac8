import { expect, test } from 'vitest';
import { numberName, threadOn, threadsOn } from '../../../src/domain/comments';
import { siteFrom } from '../site-from';

const gradient = numberName('Horizontal gradient', 'E1');

test('a comment stays with its number and event, and what follows are answers in their order', () => {
  const site = siteFrom({
    decisions: [
      'what,on,reason,who,when',
      `comment,${gradient},Half of last spring’s: is the creek high?,RV,2025-09-03T10:00`,
      `comment,${gradient},Staff gauge read 0.8 ft above normal.,PR,2025-09-03T14:20`,
      `comment,${gradient},Agreed.,RV,2025-09-04T08:05`,
      'comment,DP-07,A remark on a point is no comment on a number,PR,2025-09-03T09:00',
    ],
  });
  const thread = threadOn(site, gradient);
  expect(thread?.number).toBe('Horizontal gradient');
  expect(thread?.comment.who).toBe('RV');
  expect(thread?.answers.map(({ reason }) => reason)).toEqual([
    'Staff gauge read 0.8 ft above normal.',
    'Agreed.',
  ]);
  expect(threadsOn(site, 'E1')).toHaveLength(1);
});

test('the same number of another event has its own', () => {
  const site = siteFrom({
    decisions: ['what,on,reason,who,when', `comment,${gradient},Steep.,RV,2025-09-03T10:00`],
  });
  expect(threadOn(site, numberName('Horizontal gradient', 'E2'))).toBeNull();
  expect(threadsOn(site, 'E2')).toEqual([]);
});
