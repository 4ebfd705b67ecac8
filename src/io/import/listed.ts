/** "A, B, C and 17 more" */
export function listed(names: readonly string[], most = 8): string {
  const shown = names
    .slice(0, most)
    .map((name) => (name.length > 40 ? `${name.slice(0, 37)}…` : name));
  const more = names.length - shown.length;
  return more > 0 ? `${shown.join(', ')} and ${more} more` : shown.join(', ');
}
