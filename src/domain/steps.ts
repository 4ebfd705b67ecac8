/**
 * The answer of something worked out in steps, all of them at once: for what is
 * short enough to wait for, or has no one to tell how far it is.
 */
export function allAtOnce<Answer>(steps: Generator<unknown, Answer>): Answer {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}
