import { expect, test } from 'vitest';
import type { Work } from '../../../src/domain/work';
import { worksBehind } from '../../../src/domain/works-behind';

const work = (title: string, value: number, ...behind: readonly Work[]): Work => ({
  title,
  symbol: 'x',
  formula: 'y',
  terms: behind.map((one, i) => ({
    symbol: `y${i}`,
    name: one.title,
    value: one.answer.value,
    dimension: 'number',
    from: { kind: 'work', work: one },
  })),
  answer: { value, dimension: 'number' },
  decimals: 2,
});

test('a slope that gradient and direction both rest on is printed once, after the first', () => {
  const slope = () => work('slope east', 0.01);
  const listed = worksBehind([work('gradient', 0.02, slope()), work('direction', 90, slope())]);
  expect(listed.map(({ title }) => title)).toEqual(['gradient', 'slope east', 'direction']);
});

test('two heads of one title and different values are both printed', () => {
  expect(worksBehind([work('head', 1), work('head', 2)])).toHaveLength(2);
});
