import { defineWorking } from '../working.ts'
import { type Interval, IntervalOutput, proportionInput } from './fields.ts'
import { normalQuantile } from './special/normal.ts'
import { newcombeSource } from './sources.ts'

/** Score limits of x/n. */
export function wilsonLimits(x: number, n: number, conf: number): Interval {
  const z = -normalQuantile((1 - conf) / 2)
  const reach = z * Math.sqrt((x * (n - x)) / n + (z * z) / 4)
  const middle = x + (z * z) / 2
  const low = x === 0 ? 0 : (middle - reach) / (n + z * z)
  return [low, x === n ? 1 : (middle + reach) / (n + z * z)]
}

export const propCiWilsonWorking = defineWorking({
  id: 'prop-ci-wilson',
  title: 'Limits of a proportion, Wilson',
  group: 'statistics',
  method: '(x + z²/2 ± z sqrt(x(n-x)/n + z²/4)) / (n + z²).',
  validity: 'Good coverage on average; no continuity correction.',
  sources: [newcombeSource],
  input: proportionInput,
  output: IntervalOutput,
  example: { input: { x: 4, n: 287, conf: 0.95 }, output: { value: [0.005432930045180922, 0.03528155016925947] } },
  work: ({ x, n, conf }) => ({ value: wilsonLimits(x, n, conf) }),
})
