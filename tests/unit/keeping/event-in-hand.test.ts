import { expect, test } from 'vitest';
import { eventInHand, putEventInHand } from '../../../src/app/keeping/event-in-hand';

function aStore(first: string | null = null) {
  let text = first;
  return () => ({
    getItem: () => text,
    setItem: (_: string, value: string) => {
      text = value;
    },
  });
}

test('each site kept here comes back in the event it was last looked at in', () => {
  const store = aStore();
  putEventInHand('yard', 'October', store);
  putEventInHand('bend', 'March', store);
  putEventInHand('yard', 'November', store);
  putEventInHand('yard', null, store);
  expect(eventInHand('yard', store)).toBe('November');
  expect(eventInHand('bend', store)).toBe('March');
  expect(eventInHand('moor', store)).toBeNull();
});

test('sixty sites are remembered, the last looked at first', () => {
  const store = aStore();
  for (let n = 0; n < 61; n++) putEventInHand(`site ${n}`, 'October', store);
  expect(eventInHand('site 0', store)).toBeNull();
  expect(eventInHand('site 1', store)).toBe('October');
});

test('a store that somebody else wrote in, or that is shut, tells nothing and harms nothing', () => {
  for (const text of ['{', '{"a": 1}', '[{"site": 3}]']) expect(eventInHand('yard', aStore(text))).toBeNull(); // prettier-ignore
  const shut = () => {
    throw new Error('no store');
  };
  expect(() => putEventInHand('yard', 'October', shut)).not.toThrow();
  expect(eventInHand('yard', shut)).toBeNull();
});
