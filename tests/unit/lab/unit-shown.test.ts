import { expect, test } from 'vitest';
import { withMicro } from '../../../src/domain/lab/unit-shown';

// The Unified Code for Units of Measure writes micro as "u" in plain text and µ in print (value from memory).
test.each([
  ['37 ug/L', '37 µg/L'],
  ['37 µg/L', '37 µg/L'],
  ['0.005 mg/L', '0.005 mg/L'],
  ['12 ug/kg', '12 µg/kg'],
  ['7 ug/l', '7 µg/l'],
  ['a bug/Lamp', 'a bug/Lamp'],
  ['', ''],
])('“%s” is shown as “%s”', (written, shown) => expect(withMicro(written)).toBe(shown));
