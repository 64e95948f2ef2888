/** Whichever way a history is shuffled: the corrections of one entry keep their own order, since the last of them stands. */
export function rivalsInOrder<E extends { readonly id: string; readonly corrects?: string | undefined }>(
  shuffled: readonly E[],
  history: readonly E[],
): E[] {
  const byId = new Map(history.map((entry) => [entry.id, entry]))
  const rootOf = (entry: E): string => {
    const corrected = entry.corrects === undefined ? undefined : byId.get(entry.corrects)
    return corrected === undefined ? (entry.corrects ?? entry.id) : rootOf(corrected)
  }
  const waiting = Map.groupBy(
    history.filter((entry) => entry.corrects !== undefined),
    rootOf,
  )
  return shuffled.map((entry) =>
    entry.corrects === undefined ? entry : (waiting.get(rootOf(entry))?.shift() ?? entry),
  )
}
