import { expect, test } from 'vitest';
import {
  draftOf,
  NEW_SITE,
  settingsOf,
  unitCaution,
} from '../../../src/domain/site/settings-draft';
import { inUnits } from '../../../src/domain/units';
import { settingsIn } from '../site-from';

test('settings written into a form and read back are the same settings', () => {
  for (const before of [NEW_SITE, settingsIn({ verticalUnit: 'm', confidence: 0.9 })]) {
    const read = settingsOf(draftOf(before));
    expect(read.ok && { ...read.value, elevation: 0, headError: 0, soundingTolerance: 0 }).toEqual({
      ...before,
      elevation: 0,
      headError: 0,
      soundingTolerance: 0,
    });
    expect(read.ok && read.value.headError).toBeCloseTo(before.headError, 9);
    expect(read.ok && read.value.soundingTolerance).toBeCloseTo(before.soundingTolerance, 6);
  }
});

test('an error of a head is read in the unit of the draft', () => {
  const read = settingsOf({ ...draftOf(NEW_SITE), headError: '0.02', verticalUnit: 'ft' });
  expect(read.ok && inUnits(read.value.headError, 'ft')).toBeCloseTo(0.02, 12);
});

test('each field that cannot be used is named, and what was expected', () => {
  const read = settingsOf({
    ...draftOf(NEW_SITE),
    title: ' ',
    headError: '0',
    confidence: '100',
    gaugingSpread: 'a day',
  });
  expect(read.ok ? [] : read.problem.map(({ field }) => field)).toEqual([
    'headError',
    'confidence',
    'gaugingSpread',
    'title',
  ]);
});

test('a change of unit is said to convert nothing', () => {
  expect(unitCaution(NEW_SITE, draftOf(NEW_SITE))).toBeNull();
  expect(unitCaution(NEW_SITE, { ...draftOf(NEW_SITE), verticalUnit: 'm' })).toMatch(
    /depths and elevations recorded already keep their numbers/,
  );
});
