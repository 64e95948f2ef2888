/** Refuses a number outside its range with the field, what was wanted and what came. NaN is outside every range. */
export function requireWithin(field: string, value: number, low: number, high: number): void {
  if (value >= low && value <= high) return
  throw new RangeError(`${field}: wanted number from ${low} to ${high}, current value is ${value}`)
}
