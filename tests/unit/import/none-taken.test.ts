import { expect, test } from 'vitest';
import { noneTaken } from '../../../src/app/import/none-taken';
import type { PreviewShown } from '../../../src/app/import/importing';

/** A file none of whose rows can be taken until one question is answered. */
const held = (form: string) =>
  ({
    account: { taken: 0, refused: 3 },
    mapping: { form },
    asks: [{ id: 'a question', needed: true }],
  }) as unknown as PreviewShown;

const saysOf = (form: string, locations: number) =>
  noneTaken(held(form), () => false, [], locations)?.says ?? '';

test('water levels on an empty site are told to come after the locations', () => {
  expect(saysOf('water_levels', 0)).toContain('take a file of locations first');
  expect(saysOf('water_levels', 8)).not.toContain('locations');
});

test.each(['features', 'screening_levels', 'locations'])(
  '%s stand by themselves: on an empty site only their question is open',
  (form) => {
    expect(saysOf(form, 0)).toBe(
      'None of the 3 rows can be taken yet. The questions below are open.',
    );
  },
);
