import { logChoose } from '../special/log-choose.ts'

/** Most placements of all infections but the last that are gone through; the last is counted, not placed. */
export const placementsAllowed = 20_000_000

/** How many placements an exact answer has to go through. */
export function placementsOf(procedures: number, cases: number): number {
  return cases === 0 ? 1 : Math.round(Math.exp(logChoose(procedures, cases - 1)))
}

/**
 * Share of the placements of `cases` infections over the procedures that hold a run of c infections within reach[c].
 *
 * All placements that do not are counted, by placing the infections one after another and leaving a branch as soon as it does;
 * the places left for the last infection are counted outright.
 */
export function shareReaching(procedures: number, cases: number, reach: Int32Array): number {
  const places = new Int32Array(cases)
  const firstFree = (placed: number): number => {
    // The earliest place for the next infection at which no run ending with it is within reach.
    let free = placed === 0 ? 1 : (places[placed - 1] ?? 0) + 1
    if ((reach[1] ?? 0) >= 1) return procedures + 1
    for (let c = 2; c <= placed + 1; c += 1) {
      free = Math.max(free, (places[placed - c + 1] ?? 0) + (reach[c] ?? 0))
    }
    return free
  }
  const countFrom = (placed: number): number => {
    const from = firstFree(placed)
    if (placed === cases - 1) return Math.max(0, procedures - from + 1)
    let count = 0
    const last = procedures - (cases - placed - 1)
    for (let place = from; place <= last; place += 1) {
      places[placed] = place
      count += countFrom(placed + 1)
    }
    return count
  }
  const all = Math.round(Math.exp(logChoose(procedures, cases)))
  return 1 - countFrom(0) / all
}
