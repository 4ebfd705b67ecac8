/** Success or failure as a value. Exceptions are for bugs in our own code. */
export type Result<T, P> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: P };

/** It went well: this is what came of it. */
export const ok = <T>(value: T) => ({ ok: true, value }) as const;
/** It did not: this is why, in the parts of its sentence. */
export const fail = <P>(problem: P) => ({ ok: false, problem }) as const;
