/** Success or failure as a value. Exceptions are for bugs in our own code. */
export type Result<T, P> =
  { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: P };

export const ok = <T>(value: T) => ({ ok: true, value }) as const;
export const fail = <P>(problem: P) => ({ ok: false, problem }) as const;
