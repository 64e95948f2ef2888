/**
 * Rows as CSV (RFC 4180). A text that a table program would take for a formula is led by an apostrophe, as OWASP ASVS 5.0,
 * 1.2.10 asks: a name on record must not become a command of whoever opens the file. Numbers are as they are.
 */
export function csvText(rows: readonly (readonly (string | number | null)[])[]): string {
  return rows.map((row) => row.map(cell).join(',')).join('\r\n')
}

function cell(value: string | number | null): string {
  if (value === null) return ''
  if (typeof value === 'number') return String(value)
  // oxlint-disable-next-line no-control-regex -- tab, return and null begin a formula in some of them
  const text = /^[=+\-@\t\r\n\u0000\uFF1D\uFF0B\uFF0D\uFF20]/.test(value) ? `'${value}` : value
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text
}
