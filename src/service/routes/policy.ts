import { z } from 'zod'
import { unitPolicy } from '#road/gather.ts'
import { limits } from '#road/limits.ts'
import { policyFrom } from '#road/policy.ts'
import type { KnownOf } from '#road/known.ts'
import { Source } from '#units/source.ts'
import type { AddRoutes } from '../app-type.ts'
import type { PolicyAnswer } from '../api-types.ts'
import { answers } from '../schemas/answers.ts'

const Value = z.union([z.number(), z.string(), z.boolean(), z.null()])

const PolicySchema = z.object({
  version: z.string(),
  limits: z.array(
    z.object({
      id: z.string(),
      title: z.string(),
      unit: z.string(),
      value: Value,
      source: Source,
      default: Value,
      defaultSource: Source,
      allowed: z
        .union([z.object({ from: z.number(), to: z.number() }), z.object({ oneOf: z.array(z.string()) })])
        .nullable(),
      changed: z.object({ by: z.string(), at: z.string(), reason: z.string(), entry: z.string() }).nullable(),
    }),
  ),
})

/** The limits in force, each with where it comes from. */
export const addPolicyRoutes: AddRoutes = (app, { reader }) => {
  app.get(
    '/api/policy',
    {
      schema: {
        tags: ['rules'],
        summary: 'Every limit: its value in force and its source, the default, and who changed it',
        response: answers({ schema: PolicySchema, description: 'The policy' }),
      },
    },
    async () => policyAnswer((await reader.known([unitPolicy])).get(unitPolicy)),
  )
}

function policyAnswer(known: KnownOf<'policy'> | undefined): PolicyAnswer {
  const policy = policyFrom(known)
  return {
    version: policy.version,
    limits: limits.map((limit) => {
      const { value, source } = policy.limit(limit)
      const change = known?.changed[limit.id]
      return {
        id: limit.id,
        title: limit.title,
        unit: limit.unit,
        value,
        source,
        default: limit.value,
        defaultSource: limit.source,
        allowed: limit.allowed ?? null,
        changed:
          change === undefined ? null : { by: change.by, at: change.at, reason: change.reason, entry: change.entry },
      }
    }),
  }
}
