/**
 * How many equal yearly payments a sum is worth: what a machine costs in a year is its price over this.
 *
 * @param rate of interest in a year, 0.03 for 3 %; at 0 the years themselves.
 * @param years that it lasts, above 0.
 */
export function annuityFactor(rate: number, years: number): number {
  return rate === 0 ? years : -Math.expm1(-years * Math.log1p(rate)) / rate
}
