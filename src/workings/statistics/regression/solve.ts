/**
 * Inverse and ln determinant of a symmetric positive-definite matrix (rows), by Cholesky; undefined when it is not, which is what
 * columns that say the same thing lead to.
 */
export function invertPositive(
  matrix: readonly (readonly number[])[],
): { readonly inverse: number[][]; readonly logDeterminant: number } | undefined {
  const size = matrix.length
  const factor = Array.from({ length: size }, () => Array.from({ length: size }, () => 0))
  let logDeterminant = 0
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      let sum = at(matrix, row, column)
      for (let k = 0; k < column; k += 1) sum -= at(factor, row, k) * at(factor, column, k)
      if (row !== column) {
        set(factor, row, column, sum / at(factor, column, column))
        continue
      }
      if (!(sum > 1e-11 * at(matrix, row, row))) return undefined
      logDeterminant += Math.log(sum)
      set(factor, row, row, Math.sqrt(sum))
    }
  }
  const inverse = matrix.map((_, column) => solved(factor, column))
  return { inverse, logDeterminant }
}

/** Column of the inverse from the Cholesky factor. */
function solved(factor: readonly (readonly number[])[], column: number): number[] {
  const size = factor.length
  const x = Array.from({ length: size }, () => 0)
  x[column] = 1
  for (let row = 0; row < size; row += 1) {
    let sum = x[row] ?? 0
    for (let k = 0; k < row; k += 1) sum -= at(factor, row, k) * (x[k] ?? 0)
    x[row] = sum / at(factor, row, row)
  }
  for (let row = size - 1; row >= 0; row -= 1) {
    let sum = x[row] ?? 0
    for (let k = row + 1; k < size; k += 1) sum -= at(factor, k, row) * (x[k] ?? 0)
    x[row] = sum / at(factor, row, row)
  }
  return x
}

function at(matrix: readonly (readonly number[])[], row: number, column: number): number {
  return matrix[row]?.[column] ?? 0
}

function set(matrix: number[][], row: number, column: number, value: number): void {
  const line = matrix[row]
  if (line !== undefined) line[column] = value
}
