/** Runs pieces of work one after the other, in the order in which they came, whatever becomes of each. */
export function oneAtATime(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve()
  return (work) => {
    const mine = last.then(work, work)
    last = mine.catch(() => {})
    return mine
  }
}
