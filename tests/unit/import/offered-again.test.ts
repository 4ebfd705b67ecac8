import { afterEach, expect, test, vi } from 'vitest';
import { rememberedAnswers, rememberMapping } from '../../../src/app/import/remembered';
import { offeredAgain, type Ask } from '../../../src/io/import/ask';
import { proposeMapping } from '../../../src/io/import/match-columns';
import { preview } from '../../../src/io/import/preview';
import { emptySite, sourceOf, targetOf } from './target';

const HEADER = 'Well,Date,DTW,Status';
const first = sourceOf('may.csv', HEADER, 'MW-1,05/06/2025,8.31,slow', 'MW-2,05/07/2025,7.90,');
const next = sourceOf('june.csv', HEADER, 'MW-1,06/05/2025,8.40,slow', 'MW-2,06/07/2025,8.05,');

const asksOf = (source: typeof first) =>
  preview(source, proposeMapping(source).mapping, {}, targetOf(emptySite())).asks;
const ids = (asks: readonly Ask[]) => asks.map(({ id }) => id);

const store = new Map<string, string>();
afterEach(() => {
  vi.unstubAllGlobals();
  store.clear();
});
const browser = () =>
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => store.get(key) ?? null,
    setItem: (key: string, value: string) => store.set(key, value),
  });

test('what was answered of a file is offered for the next of its shape: units and words, not dates', () => {
  browser();
  expect(ids(asksOf(first))).toEqual(expect.arrayContaining(['day order', 'length unit', 'water_levels.status slow'])); // prettier-ignore
  const answers = {
    'day order': 'month first',
    'length unit': 'ft',
    'water_levels.status slow': 'recovering',
    rounds: 'one',
  };
  const { mapping } = proposeMapping(first);
  rememberMapping('Osier Bend', mapping, answers);
  const before = rememberedAnswers('Osier Bend', mapping.shape);
  expect(before).toEqual({ 'length unit': 'ft', 'water_levels.status slow': 'recovering' });

  const asks = asksOf(next);
  expect(ids(asks)).toContain('day order');
  expect(offeredAgain(asks, {}, before)).toEqual(before);
  // One that has been answered is not offered over the answer.
  expect(offeredAgain(asks, { 'length unit': 'm' }, before)).toEqual({
    'water_levels.status slow': 'recovering',
  });
  expect(rememberedAnswers('Another site', mapping.shape)).toEqual({});
});

test('an answer that is no choice any more, or to no question of the file, is not offered', () => {
  const asks = asksOf(next);
  expect(offeredAgain(asks, {}, { 'length unit': 'fathoms' })).toEqual({});
  expect(offeredAgain(asks, {}, { 'water_levels.status odd': 'dry' })).toEqual({});
  expect(offeredAgain(asks, {}, { 'day order': 'day first' })).toEqual({});
});

test('what a broken page stored is not believed', () => {
  browser();
  const { mapping } = proposeMapping(first);
  for (const answers of [{ 'length unit': 3 }, 'ft', null]) {
    store.set('downgradient.columns-of-sites', JSON.stringify([{ site: 'A', mapping, answers }]));
    expect(rememberedAnswers('A', mapping.shape)).toEqual({});
  }
});
