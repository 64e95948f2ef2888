import { invariant } from '#units/invariant.ts'

/** Solves A x = b by elimination with row exchange. The rows are changed on the way. */
export function solveLinear(rows: Float64Array[], right: number[]): number[] {
  const size = right.length
  for (let column = 0; column < size; column += 1) {
    let best = column
    for (let row = column + 1; row < size; row += 1) {
      if (Math.abs(rows[row]?.[column] ?? 0) > Math.abs(rows[best]?.[column] ?? 0)) best = row
    }
    exchange(rows, right, column, best)
    const pivotRow = rows[column]
    invariant(pivotRow !== undefined && pivotRow[column] !== 0, 'a regular matrix')
    for (let row = column + 1; row < size; row += 1) {
      const target = rows[row]
      if (target === undefined) continue
      const factor = (target[column] ?? 0) / (pivotRow[column] ?? 1)
      for (let k = column; k < size; k += 1) target[k] = (target[k] ?? 0) - factor * (pivotRow[k] ?? 0)
      right[row] = (right[row] ?? 0) - factor * (right[column] ?? 0)
    }
  }
  const answer = Array.from({ length: size }, () => 0)
  for (let row = size - 1; row >= 0; row -= 1) {
    let sum = right[row] ?? 0
    for (let k = row + 1; k < size; k += 1) sum -= (rows[row]?.[k] ?? 0) * (answer[k] ?? 0)
    answer[row] = sum / (rows[row]?.[row] ?? 1)
  }
  return answer
}

function exchange(rows: Float64Array[], right: number[], a: number, b: number): void {
  const first = rows[a]
  const second = rows[b]
  invariant(first !== undefined && second !== undefined, 'rows inside the matrix')
  rows[a] = second
  rows[b] = first
  const kept = right[a] ?? 0
  right[a] = right[b] ?? 0
  right[b] = kept
}
