/**
 * What is worked out of something, kept for as long as it and the parts it hangs
 * from stay the same things.
 */
export function keptWhile<Made>() {
  const kept = new WeakMap<object, { readonly parts: readonly unknown[]; readonly made: Made }>();
  return (of: object, parts: readonly unknown[], make: () => Made): Made => {
    const before = kept.get(of);
    if (before?.parts.every((part, i) => part === parts[i])) return before.made;
    const made = make();
    kept.set(of, { parts, made });
    return made;
  };
}
