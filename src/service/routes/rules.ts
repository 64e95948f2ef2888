import { z } from 'zod'
import { stages } from '#road/kind.ts'
import { entryKinds } from '#road/kinds.ts'
import { rules } from '#road/rules.ts'
import type { AddRoutes } from '../app-type.ts'
import type { KindRow, RuleRow } from '../api-types.ts'
import { jsonSchemaOf } from '../json-schema-of.ts'
import { answers } from '../schemas/answers.ts'

const Rule = z.object({
  id: z.string(),
  says: z.string(),
  on: z.array(z.string()),
  exceptionAllowed: z.boolean(),
})

const Kind = z.object({
  kind: z.string(),
  stage: z.enum(stages),
  nature: z.enum(['fact', 'decision']),
  title: z.string(),
  body: z.record(z.string(), z.json()),
})

/** What may be recorded, and by which rules it is judged. */
export const addRuleRoutes: AddRoutes = (app) => {
  const ruleRows = rules.map(({ id, says, on, exceptionAllowed }): RuleRow => ({ id, says, on, exceptionAllowed }))
  const kindRows = entryKinds.map(({ kind, stage, nature, title, body }): KindRow => ({
    kind,
    stage,
    nature,
    title,
    body: jsonSchemaOf(body, 'input'),
  }))

  app.get(
    '/api/rules',
    {
      schema: {
        tags: ['rules'],
        summary: 'The rules, in the order in which they are asked',
        response: answers({ schema: z.array(Rule), description: 'Each rule with the kinds of entry that it looks at' }),
      },
    },
    async () => ruleRows,
  )

  app.get(
    '/api/kinds',
    {
      schema: {
        tags: ['rules'],
        summary: 'What may be recorded, with the JSON Schema of each body',
        response: answers({ schema: z.array(Kind), description: 'Kinds of entry in the order of the road' }),
      },
    },
    async () => kindRows,
  )
}
