/**
 * CAS Registry Numbers: two to seven digits, two digits, and a check digit. The
 * check digit is the sum of the other digits, counted from the right and each
 * multiplied by its place (1, 2, 3 …), modulo 10. (CAS, "Check digit
 * verification of CAS Registry Numbers", read.)
 */
const CAS = /^([1-9]\d{1,6})-(\d{2})-(\d)$/;

/** The check digit the other digits of a number ask for. */
export function checkDigit(digits: string): number {
  let sum = 0;
  for (let place = 1; place <= digits.length; place++)
    sum += place * Number(digits[digits.length - place]);
  return sum % 10;
}

/** Whether a text is a CAS number whose check digit is right. */
export function isCas(text: string): boolean {
  const [, front, middle, check] = CAS.exec(text) ?? [];
  return front !== undefined && checkDigit(front + middle) === Number(check);
}

/**
 * The CAS number in a cell, or null where there is none that can be trusted.
 * Leading zeros, as in a ten-digit column, are dropped: 000071-43-2 is 71-43-2.
 */
export function casOf(text: string | null): string | null {
  if (text === null) return null;
  const trimmed = text.trim().replace(/^0+(?=\d{2})/, '');
  return isCas(trimmed) ? trimmed : null;
}
