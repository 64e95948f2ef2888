import type { TypedSent } from '#road/kinds.ts'
import { type ClerkLoad, grew, negative, spoilt, timeOf } from './clerk-loads.ts'

/**
 * After a major repair: three good tests in a row with the load's own program, and three air-removal tests. The repair is
 * the last before the load ran, and what was tested after the next one tells nothing of it.
 */
export function againstRepair(
  standing: readonly TypedSent[],
  loads: ReadonlyMap<string, ClerkLoad>,
  load: ClerkLoad,
): string[] {
  const { machine, program } = load.built.body
  let since: string | undefined
  let until: string | undefined
  let dynamic = false
  for (const each of standing) {
    if (each.kind === 'machine-registered' && each.body.machine === machine)
      dynamic = each.body.airRemoval === 'dynamic'
    if (each.kind !== 'machine-repaired' || each.body.machine !== machine || !each.body.major) continue
    if (each.happenedAt <= timeOf(load)) since = each.happenedAt
    else until ??= each.happenedAt
  }
  if (since === undefined) return []
  const [from, to] = [since, until ?? 'later than any day']
  const inTime = (at: string): boolean => at >= from && at < to
  const tests = [...loads.values()]
    .filter(({ built }) => built.body.machine === machine && built.body.program === program)
    .filter(({ built }) => ['qualification', 'retest', 'biologicalTest'].includes(built.body.purpose))
    .filter((test) => inTime(timeOf(test)))
    .sort((a, b) => (`${timeOf(a)} ${a.id}` < `${timeOf(b)} ${b.id}` ? -1 : 1))
  const against: string[] = []
  if (!threeInARow(tests.map((test) => (grew(test) || spoilt(test) ? 'bad' : negative(test) ? 'good' : 'nothing')))) {
    against.push(`${program} not proven since the repair`)
  }
  const air: ('good' | 'bad')[] = []
  for (const each of standing) {
    if (each.kind !== 'air-removal-tested' || each.body.machine !== machine || !inTime(each.happenedAt)) continue
    air.push(each.body.result === 'passed' ? 'good' : 'bad')
  }
  if (dynamic && !threeInARow(air)) against.push('air removal not proven since the repair')
  return against
}

function threeInARow(results: readonly ('good' | 'bad' | 'nothing')[]): boolean {
  let row = 0
  return results.some((result) => {
    if (result === 'bad') row = 0
    if (result === 'good') row += 1
    return row === 3
  })
}
