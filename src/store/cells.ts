/** Cells of a table in CSV (RFC 4180), such that no spreadsheet takes one for a formula. */

/** A text that would be taken for a formula, or for one that was guarded, gets a quote before it. */
const LOOKS_LIKE_FORMULA = /^'*[=+\-@\t\r]/;

/** A text that no spreadsheet takes for a formula. */
export function guarded(text: string): string {
  return LOOKS_LIKE_FORMULA.test(text) ? `'${text}` : text;
}

/** The text that was guarded. */
export function unguarded(text: string): string {
  return /^'+[=+\-@\t\r]/.test(text) ? text.slice(1) : text;
}

/** A cell as it stands in the file; numbers need no guard. */
function cell(value: string | number | null): string {
  const safe = typeof value === 'string' ? guarded(value) : String(value ?? '');
  return /[",;\n\r\t]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** A line of a table, without its end. */
export function csvLine(values: readonly (string | number | null)[]): string {
  return values.map(cell).join(',');
}

/** A whole file. Spreadsheets take a file for UTF-8 only where it begins with this mark. */
export function csvFile(lines: readonly (readonly (string | number | null)[])[]): string {
  return `\uFEFF${lines.map(csvLine).join('\r\n')}\r\n`;
}
