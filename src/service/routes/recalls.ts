import { z } from 'zod'
import { Finding } from '#road/finding.ts'
import { Instant } from '#road/instant.ts'
import { roundStandings } from '#road/round.ts'
import { subjectOf } from '#road/subject.ts'
import { Source } from '#units/source.ts'
import type { AddRoutes } from '../app-type.ts'
import type { KnownRow, RecallAnswer } from '../api-types.ts'
import { rowOf } from '../known-row.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound } from '../problems.ts'
import { readRecall } from '../read-recall.ts'
import { answers } from '../schemas/answers.ts'
import { KnownRowsAnswer } from '../schemas/known.ts'

const Duty = z.enum(['recall', 'hold', 'cleared'])
const load = z.union([subjectOf('load'), subjectOf('immersion')])
const via = z.union([load, subjectOf('wash'), subjectOf('lot')])

const Recall = z.object({
  recall: z.record(z.string(), z.json()),
  standing: z.enum(['open', 'closed']),
  lastGood: load.nullable(),
  failed: z.union([subjectOf('load'), subjectOf('bath'), subjectOf('lot')]),
  machine: subjectOf('machine').nullable(),
  verdict: z.string(),
  because: z.string(),
  repeats: z.object({ good: z.int(), needed: z.int() }),
  coveredBy: subjectOf('recall').nullable(),
  loads: z.array(z.object({ load: via, at: Instant, duty: Duty, why: z.string(), source: Source })),
  packs: z.array(
    z.object({
      round: subjectOf('round'),
      set: subjectOf('set').nullable(),
      load: via,
      duty: Duty,
      place: z.enum(roundStandings),
      shelf: z.string().nullable(),
      case: subjectOf('case').nullable(),
      outcome: z.string().nullable(),
    }),
  ),
  findings: z.array(Finding),
})

/** Recalls, and what each reaches. */
export const addRecallRoutes: AddRoutes = (app, { reader, now }) => {
  const tags = ['trace']

  app.get(
    '/api/recalls',
    {
      schema: {
        tags,
        summary: 'Recalls, the open ones first, the newest of each first',
        response: answers({ schema: KnownRowsAnswer, description: 'At most 500 open and 500 closed recalls' }),
      },
    },
    async () => {
      const [open, closed] = await Promise.all(
        ['open', 'closed'].map((standing) => reader.knownOfKind('recall', { standings: [standing], limit: 500 })),
      )
      return [...(open ?? []), ...(closed ?? [])].map((row) => rowOf('recall', row)) satisfies KnownRow<'recall'>[]
    },
  )

  app.get(
    '/api/recalls/:recall',
    {
      schema: {
        tags,
        summary: 'What a recall reaches now: loads, packs where they are, and what stands against closing it',
        params: z.strictObject({ recall: subjectOf('recall') }),
        response: answers({ schema: Recall, description: 'The extent, worked out from the record' }, 404, 422),
      },
    },
    async (request, reply) => {
      const { recall } = request.params
      const answer: RecallAnswer | undefined = await readRecall(reader, recall, now())
      return answer ?? sendProblem(reply, notFound('recall', 'a recall that is known', recall))
    },
  )
}
