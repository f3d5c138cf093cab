/** A heading over rows whose columns line up; nothing when there are no rows. */
export function section(heading: string, rows: string[][]): string[] {
  if (rows.length === 0) return [];
  const widths = [0, 1].map((column) => Math.max(...rows.map((row) => row[column].length)));
  return [
    '',
    heading,
    ...rows.map((row) => `  ${row[0].padEnd(widths[0])}  ${row[1].padEnd(widths[1])}  ${row[2]}`.trimEnd()),
  ];
}
