import { describe, expect, test } from 'vitest';
import { kindOfName } from '../../../src/io/import/control-samples';
import { eventsOfDays } from '../../../src/io/import/event-days';
import { stemOf } from '../../../src/io/import/kinds';
import { areShots, readShot } from '../../../src/io/import/survey-shots';
import { shortPlace } from '../../../src/app/places/grids';

// Words of surveys and laboratories are common practice, no source: the lists below are written by hand.

describe('what a surveyor’s description says was shot', () => {
  test.each([
    ['TY-MW1 TOC', 'TY-MW1', 'casing', 'top of casing'],
    ['MW-3A PVC TOC', 'MW-3A', 'casing', 'top of casing'],
    ['MW 4, MP', 'MW 4', 'casing', 'measuring point'],
    ['mw-5 (tor)', 'mw-5', 'casing', 'top of riser'],
    ['TOC MW-6', 'MW-6', 'casing', 'top of casing'],
    ['MW7TOC', 'MW7', 'casing', 'top of casing'],
    ['MW-8 GS', 'MW-8', 'ground', 'GS'],
    ['MW-8 ground', 'MW-8', 'ground', 'ground'],
    ['GRD MW-9', 'MW-9', 'ground', 'GRD'],
    ['TOC', '', 'casing', 'top of casing'],
    ['GP-01', 'GP-01', null, ''],
    ['GS-3', 'GS-3', null, ''],
    ['BOGS', 'BOGS', null, ''],
  ])('%s', (text, name, mark, words) => {
    const shot = readShot(text);
    expect([shot.name, shot.mark]).toEqual([name, mark]);
    if (mark !== 'ground') expect(shot.words).toBe(words);
  });

  test('descriptions are of shots only beside the surveyor’s numbers, or as a mark alone beside a name', () => {
    expect(areShots(['MW-1 TOC', 'MW-1 GS'], ['101', '102'])).toBe(true);
    expect(areShots(['GP-01', 'GP-02'], ['101', '102'])).toBe(true);
    expect(areShots(['TOC', 'GS'], ['MW-1', 'MW-2'])).toBe(true);
    expect(areShots(['MW-1', 'MW-2'], null)).toBe(false);
    expect(areShots(['well, 2 in PVC', 'well, 4 in PVC'], ['MW-1', 'MW-2'])).toBe(false);
    expect(areShots(['edge of road', 'fence corner'], ['101', '102'])).toBe(false);
  });
});

test('names begin alike before their number', () => {
  expect(['TY-MW1', 'GP-01', 'MW-3A', '101', 'B 7'].map(stemOf)).toEqual(['TY-MW', 'GP', 'MW', '', 'B']); // prettier-ignore
});

describe('what a sample’s name speaks for', () => {
  test.each([
    ['DUP-1', 'field duplicate'],
    ['Dup 02', 'field duplicate'],
    ['MW-3 DUP', 'field duplicate'],
    ['FD-101425', 'field duplicate'],
    ['Trip Blank', 'trip blank'],
    ['TB-01', 'trip blank'],
    ['EB-1', 'equipment blank'],
    ['Rinsate blank 2', 'equipment blank'],
    ['Field Blank', 'field blank'],
    ['MW-3', null],
    ['FDR-1', null],
    ['DUPONT-3', null],
    ['TBM-2', null],
  ])('%s: %s', (name, kind) => {
    expect(kindOfName(name)).toBe(kind);
  });
});

describe('the event a day belongs to', () => {
  const october = { id: 'October', first_day: '2025-10-13', last_day: '2025-10-13' };
  const may = { id: 'May', first_day: '2025-05-01', last_day: '2025-05-03' };

  test('days that adjoin an event one after the other are all of it', () => {
    const days = ['2025-10-14', '2025-10-15', '2025-10-17', '2025-10-20', '2025-10-24'];
    expect([...eventsOfDays(days, [may, october])]).toEqual(
      days.slice(0, 4).map((day) => [day, ['October']]),
    );
  });

  test('a day within two events is of both, and one between two as near to each is too', () => {
    const twin = { id: 'Twin', first_day: '2025-10-13', last_day: '2025-10-17' };
    expect(eventsOfDays(['2025-10-13'], [october, twin]).get('2025-10-13')).toEqual(['October', 'Twin']); // prettier-ignore
    const late = { id: 'Late', first_day: '2025-10-17', last_day: '2025-10-17' };
    expect(eventsOfDays(['2025-10-15'], [october, late]).get('2025-10-15')).toEqual(['October', 'Late']); // prettier-ignore
  });

  test('the months between are of none', () => {
    expect(eventsOfDays(['2025-07-01'], [may, october]).size).toBe(0);
    expect(eventsOfDays(['2025-07-01'], []).size).toBe(0);
  });
});

test('of a grid’s counties those sought are named, and how many there are', () => {
  const place = 'USA - Indiana - counties of Adams; Allen; Marion';
  expect(shortPlace(place, 'indiana east')).toBe('USA - Indiana, 3 counties');
  expect(shortPlace(place, 'Marion county')).toBe('USA - Indiana: Marion and 2 more counties');
  expect(shortPlace('Poland - onshore', 'poland')).toBe('Poland - onshore');
});
