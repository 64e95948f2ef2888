/** Relative room for the last digits of binary arithmetic: 1.3 mbar/min computes as 0.13000000000000003 kPa/min. */
const floatNoise = 1e-9

/** `value <= limit`, where equality passes and float noise does not decide. */
export function atMost(value: number, limit: number): boolean {
  return value <= limit + floatNoise * Math.max(1, Math.abs(limit))
}

/** `value >= limit`, on the same terms. */
export function atLeast(value: number, limit: number): boolean {
  return atMost(-value, -limit)
}
