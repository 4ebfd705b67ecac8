/** Rows as text in columns that line up; the first row is the heading. */
export function inColumns(
  heading: readonly string[],
  rows: readonly (readonly string[])[],
): string {
  const all = [heading, ...rows];
  const widths = heading.map((_, i) => Math.max(...all.map((row) => row[i]?.length ?? 0)));
  const numeric = heading.map(
    (_, i) => rows.length > 0 && rows.every((row) => /^[−+-]?[\d.]*[°%]?$/.test(row[i] ?? '')),
  );
  return all
    .map((row) =>
      row
        .map((text, i) => {
          const width = widths[i] ?? 0;
          return numeric[i] ? text.padStart(width) : text.padEnd(width);
        })
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
