import { z } from 'zod'
import { atMost } from '#workings/physics/at-most.ts'
import { figure } from '../naming.ts'
import type { Limit, Policy } from '../policy.ts'
import type { Found } from '../rule.ts'
import {
  residueAgents,
  residueContacts,
  residueDoses,
  residueSurface,
  spansOf,
  type ResidueAgent,
} from './residue-limits.ts'
import { residueTogether } from './sources.ts'

const amount = z.number().min(0).max(1e9)
const Doses = z.strictObject({
  firstDay: amount.optional(),
  thirtyDays: amount.optional(),
  lifetime: amount.optional(),
})

/** What was found on a device, in mg by how long it may be given off, and on the surface that touches. */
export const ResidueFigures = z.strictObject({
  contact: z.enum(residueContacts),
  eoMg: Doses.optional(),
  echMg: Doses.optional(),
  eoMicrogramsPerCm2: amount.optional(),
  echMicrogramsPerCm2: amount.optional(),
})
export type ResidueFigures = z.infer<typeof ResidueFigures>

/**
 * Every limit of the contact holds at once. A dose of a long span that was not measured is not known; the first day of
 * the chlorohydrin may be missing, since it is formed only where chlorides were.
 */
export function residueOver(figures: ResidueFigures, policy: Policy): readonly Found[] {
  return residueAgents.flatMap((agent) => {
    const doses = (agent === 'eo' ? figures.eoMg : figures.echMg) ?? {}
    const surface = agent === 'eo' ? figures.eoMicrogramsPerCm2 : figures.echMicrogramsPerCm2
    const spans = spansOf[figures.contact]
    const compared = spans.flatMap((span) => over(agent, doses[span], residueDoses[agent][span], policy))
    return [
      ...compared,
      ...over(agent, surface, residueSurface[agent], policy),
      ...(agent === 'eo'
        ? spans.filter((span) => doses[span] === undefined).map((span) => missing(residueDoses.eo[span]))
        : []),
    ]
  })
}

function over(
  agent: ResidueAgent,
  measured: number | undefined,
  limit: Limit<number>,
  policy: Policy,
): readonly Found[] {
  if (measured === undefined) return []
  const { value, source } = policy.limit(limit)
  if (atMost(measured, value)) return []
  return [
    {
      weight: 'stop',
      says: `Too much ${agent === 'eo' ? 'ethylene oxide' : 'ethylene chlorohydrin'} is left. Do not use the device; aerate on and test again. (${limit.title})`,
      measured: `${figure(measured, 4)} ${limit.unit}`,
      limit: `at most ${value} ${limit.unit}`,
      source,
    },
  ]
}

function missing(limit: Limit<number>): Found {
  return {
    weight: 'notEvaluable',
    says: `Not measured: ${limit.title}. All limits of this contact must be shown to hold at once.`,
    limit: `at most ${limit.value} ${limit.unit}`,
    source: residueTogether,
  }
}
