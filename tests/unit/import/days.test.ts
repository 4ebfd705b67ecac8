import fc from 'fast-check';
import { expect, test } from 'vitest';
import { DayEvidence, NO_RULES, readClock, readWhen, serialDay } from '../../../src/io/import/days';
import { DecimalEvidence } from '../../../src/io/import/numbers';

const text = (written: string, rules = NO_RULES) => readWhen(written, rules);

test.each([
  ['2025-03-31', '2025-03-31'],
  ['2025/3/31', '2025-03-31'],
  ['20250331', '2025-03-31'],
  ['31-Mar-2025', '2025-03-31'],
  ['31 March 2025', '2025-03-31'],
  ['Mar 31, 2025', '2025-03-31'],
  ['March 31st, 2025', '2025-03-31'],
  ['2025-Mar-31', '2025-03-31'],
  ['31.03.2025', '2025-03-31'],
  ['3/31/2025', '2025-03-31'],
  ['4/4/2025', '2025-04-04'],
  ['2025-03-31T14:05', '2025-03-31T14:05'],
  ['2025-03-31 14:05:00', '2025-03-31T14:05'],
  ['2025-03-31 14:05:33.120', '2025-03-31T14:05:33'],
  ['3/31/2025 2:05 PM', '2025-03-31T14:05'],
  ['31-Mar-2025 12:30 am', '2025-03-31T00:30'],
])('%s is %s', (written, day) => {
  expect(text(written)).toEqual({ text: day });
});

test.each(['3/4/2025', '03-04-2025', '4.3.2025', '3/4/2025 14:05'])(
  '%s could be March or April, and is not guessed',
  (written) => {
    expect(text(written)).toEqual({ needs: 'order' });
    expect(text(written, { ...NO_RULES, order: 'day first' })).toMatchObject({
      text: expect.stringMatching(/^2025-0[34]-0[34]/) as string,
    });
  },
);

test('day first and month first are the two readings of one date', () => {
  expect(text('3/4/2025', { ...NO_RULES, order: 'day first' })).toEqual({ text: '2025-04-03' });
  expect(text('3/4/2025', { ...NO_RULES, order: 'month first' })).toEqual({ text: '2025-03-04' });
});

test('a date that can only have its month first is refused in a file said to have the day first', () => {
  expect(text('3/31/2025', { ...NO_RULES, order: 'day first' })).toEqual({
    expected: 'a date with the day first',
  });
});

test('two digits of a year are not guessed', () => {
  expect(text('3/31/98')).toEqual({ needs: 'century' });
  expect(text('3/31/98', { ...NO_RULES, century: 'nearest' })).toEqual({ text: '1998-03-31' });
  expect(text('3/31/25', { ...NO_RULES, century: 'nearest' })).toEqual({ text: '2025-03-31' });
});

test('a spreadsheet’s day number is not guessed to be one', () => {
  expect(text('45747')).toEqual({ needs: 'serial' });
  expect(text('45747', { ...NO_RULES, serial: '1900' })).toEqual({ text: '2025-03-31' });
  expect(text('45747.5', { ...NO_RULES, serial: '1900' })).toEqual({ text: '2025-03-31T12:00' });
});

// ECMA-376-1:2016 (Office Open XML), 18.17.4.1: in the 1900 date base system serial 1 is
// 1900-01-01 and 2,958,465 is 9999-12-31; in the 1904 system 0 is 1904-01-01 (value from memory).
test.each([
  [2_958_465, '1900', '9999-12-31'],
  [61, '1900', '1900-03-01'],
  [0, '1904', '1904-01-01'],
] as const)('day number %i counted from %s is %s', (serial, from, day) => {
  expect(serialDay(serial, from)).toBe(day);
});

test.each(['2025-02-30', '31/31/2025', '2025-13-01', 'yesterday', '8.31', '12:05', '2025', ''])(
  '%s is no date',
  (written) => {
    expect(text(written)).toHaveProperty('expected');
  },
);

test('a time in another zone is not turned into ours', () => {
  expect(text('2025-03-31T14:05:00Z')).toEqual({ needs: 'zone' });
  expect(text('2025-03-31T14:05:00Z', { ...NO_RULES, zone: 'local' })).toEqual({
    text: '2025-03-31T14:05',
  });
  expect(text('2025-03-31T14:05-07:00', { ...NO_RULES, zone: 'no' })).toHaveProperty('expected');
});

test.each([
  ['14:05', '14:05'],
  ['2:05 PM', '14:05'],
  ['12:00 PM', '12:00'],
  ['12:00 am', '00:00'],
  ['0805', '08:05'],
  ['25:00', null],
  ['13:00 PM', null],
])('a clock of %s reads %s', (written, clock) => {
  expect(readClock(written)).toBe(clock);
});

const evidence = (...dates: readonly string[]) => {
  const seen = new DayEvidence();
  dates.forEach((date) => seen.see(date));
  return seen;
};

test('the file is asked about once, and what speaks for an order is said', () => {
  const asks = evidence('3/4/2025', '5/6/2025', '31/1/2025').asks;
  expect(asks).toHaveLength(1);
  expect(asks[0]).toMatchObject({ id: 'day order', proposed: 'day first', needed: true });
  expect(asks[0]?.why).toBe('“3/4/2025” can be read either way. “31/1/2025” can only have its day first.'); // prettier-ignore
});

test('a file that has been through two spreadsheets speaks for nothing', () => {
  const [ask] = evidence('3/4/2025', '31/1/2025', '1/31/2025').asks;
  expect(ask?.proposed).toBeNull();
});

test('dates that cannot be mistaken ask nothing', () => {
  expect(evidence('2025-03-04', '31 Mar 2025', '4/4/2025', '3/31/2025').asks).toEqual([]);
});

test('a column of midnights is a column of days', () => {
  expect(evidence('2025-03-04 00:00:00', '2025-03-05 00:00').daysAlone).toBe(true);
  expect(evidence('2025-03-04 00:00:00', '2025-03-05 08:00').daysAlone).toBe(false);
});

test('any day written in any order comes back, once it is said which', () => {
  const day = fc.date({
    min: new Date('1950-01-01'),
    max: new Date('2049-12-31'),
    noInvalidDate: true,
  });
  fc.assert(
    fc.property(day, fc.constantFrom('/', '-', '.'), fc.boolean(), (date, sign, short) => {
      const iso = date.toISOString().slice(0, 10);
      const [year = '', month = '', d = ''] = iso.split('-');
      const written = short ? year.slice(2) : year;
      const rules = { ...NO_RULES, century: 'nearest' } as const;
      expect(text([d, month, written].join(sign), { ...rules, order: 'day first' })).toEqual({ text: iso }); // prettier-ignore
      expect(text([month, d, written].join(sign), { ...rules, order: 'month first' })).toEqual({ text: iso }); // prettier-ignore
    }),
  );
});

const decimals = (...texts: readonly string[]) => {
  const seen = new DecimalEvidence();
  texts.forEach((each) => seen.see(each));
  return seen;
};

test.each([
  [['8.31', '7.90'], 'point', null],
  [['1,200', '0.5'], 'point', null],
  [['<0,5', '12,25'], null, 'comma'],
  [['1,200', '350'], null, 'point'],
  [['1.234,5'], null, 'comma'],
  [['0,5', '0.5'], null, null],
])('numbers %j settle on %s, or ask and propose %s', (texts, settled, proposed) => {
  const seen = decimals(...texts);
  expect(seen.settled).toBe(settled);
  expect(seen.ask?.proposed ?? null).toBe(proposed);
  expect(seen.ask === null).toBe(settled !== null);
});
