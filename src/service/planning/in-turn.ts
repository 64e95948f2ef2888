/** A queue for work of which only one piece may be done at a time; what fails does not hold up what comes after it. */
export function inTurn(): <Answer>(work: () => Promise<Answer>) => Promise<Answer> {
  let last: Promise<unknown> = Promise.resolve()
  return (work) => {
    const mine = last.then(work)
    last = mine.catch(() => {})
    return mine
  }
}
