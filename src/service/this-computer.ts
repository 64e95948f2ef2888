/** The names of this computer, for itself. */
const loopback: ReadonlySet<string> = new Set(['localhost', '127.0.0.1', '::1', '[::1]'])

export function isThisComputer(host: string): boolean {
  return loopback.has(host)
}
