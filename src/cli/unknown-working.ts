/** The line for a working that does not exist. */
export function unknownWorking(id: unknown): string {
  const current = id === undefined ? 'missing' : JSON.stringify(id)
  return `working: wanted an id that "nilgrowth work list" shows, current value is ${current}`
}
