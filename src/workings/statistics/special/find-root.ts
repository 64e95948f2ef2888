/** Enough for the bracket to shrink from the largest to the smallest double by halving alone. */
const mostSteps = 2200

/**
 * Where `f` crosses zero between two ends at which its signs differ. The bracket is kept at every step, so the answer is
 * always between the ends, and each step halves the bracket or does better (inverse quadratic interpolation where
 * Chandrupatla's criterion, 1997, says that it is safe).
 *
 * @param tolerance width of the bracket to stop at; without it, neighbouring numbers.
 * @throws RangeError when the signs at the ends do not differ or a value is not a number.
 * @example findRoot((x) => x * x - 2, 0, 2) // 1.4142135623730951
 */
export function findRoot(f: (x: number) => number, low: number, high: number, tolerance = 0): number {
  let a = high
  let b = low
  let fa = valueAt(f, a)
  let fb = valueAt(f, b)
  if (fb === 0) return b
  if (fa === 0) return a
  if (fa > 0 === fb > 0) throw new RangeError(`f: wanted a change of sign from ${low} to ${high}, has ${fb} and ${fa}`)
  let step = 0.5
  for (let count = 0; count < mostSteps; count += 1) {
    const x = a + step * (b - a)
    const fx = valueAt(f, x)
    if (fx === 0) return x
    let c = b
    let fc = fb
    if (fx > 0 === fa > 0) {
      c = a
      fc = fa
    } else {
      b = a
      fb = fa
    }
    a = x
    fa = fx
    const best = Math.abs(fa) < Math.abs(fb) ? a : b
    const least = (2 * Number.EPSILON * Math.abs(best) + 0.5 * tolerance + Number.MIN_VALUE) / Math.abs(b - a)
    if (least > 0.5) return best
    step = Math.min(1 - least, Math.max(least, nextStep(a, b, c, fa, fb, fc)))
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b
}

function nextStep(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const along = (a - b) / (c - b)
  const rise = (fa - fb) / (fc - fb)
  const safe = rise ** 2 < along && (1 - rise) ** 2 < 1 - along
  if (!safe) return 0.5
  return (fa / (fb - fa)) * (fc / (fb - fc)) + (((c - a) / (b - a)) * fa * fb) / ((fc - fa) * (fc - fb))
}

function valueAt(f: (x: number) => number, x: number): number {
  const value = f(x)
  if (Number.isNaN(value)) throw new RangeError(`f(${x}): wanted number, current value is NaN`)
  return value
}
