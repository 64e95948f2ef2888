import { z } from 'zod'
import { Instant } from '#road/instant.ts'
import { Seal } from '#journal/seal/seal.ts'
import { sealText } from '#journal/seal/seal-text.ts'
import { StoreError } from '#journal/store-error.ts'
import type { AddRoutes } from '../app-type.ts'
import type { BackupsAnswer, SealCheckAnswer, SealsAnswer, ShownSeal } from '../api-types.ts'
import { sendProblem } from '../problem-reply.ts'
import { noBackupFolder, notSealed, nothingToSeal } from '../problems.ts'
import { answers } from '../schemas/answers.ts'

const Shown = z.object({ seal: Seal, text: z.string() })

const SealList = z.object({ seals: z.array(Shown), failure: z.string().nullable() })

const Check = z.object({ outcome: z.enum(['holds', 'noProof', 'broken']), says: z.string().nullable() })

const BackupList = z.object({
  schedule: z.object({ folder: z.string(), everyHours: z.int() }).nullable(),
  running: z.boolean(),
  overdue: z.boolean(),
  last: z.object({ at: Instant, good: z.boolean(), says: z.string() }).nullable(),
  backups: z.array(z.object({ name: z.string(), madeAt: Instant, bytes: z.int(), entries: z.int() })),
})

const shown = (seal: Seal): ShownSeal => ({ seal, text: sealText(seal) })

/** What keeps the record from being lost or altered unseen: seals and backups. */
export const addKeepingRoutes: AddRoutes = (app, { seals, backups }) => {
  const tags = ['keeping']

  app.get(
    '/api/seals',
    {
      schema: {
        tags,
        summary: 'The last seals of the record, the newest first',
        description:
          'A seal signs the end of the chain. `text` is for paper; `nilgrowth verify --seal FILE` checks it.',
        response: answers({ schema: SealList, description: 'The seals, and what kept the last one from being made' }),
      },
    },
    async () => ({ seals: (await seals.list()).map(shown), failure: seals.failure() }) satisfies SealsAnswer,
  )

  app.post(
    '/api/seals',
    {
      schema: {
        tags,
        summary: 'Seal the record up to its last entry',
        response: answers({ schema: Shown, description: 'The seal', status: 201 }, 409),
      },
    },
    async (_request, reply) => {
      try {
        const seal = await seals.make()
        return seal === undefined ? sendProblem(reply, nothingToSeal()) : reply.code(201).send(shown(seal))
      } catch (error) {
        if (error instanceof StoreError) return sendProblem(reply, notSealed(error.message))
        throw error
      }
    },
  )

  app.post(
    '/api/seals/check',
    {
      schema: {
        tags,
        summary: 'Hold the record against a seal, one of its own or one kept elsewhere',
        body: Seal,
        response: answers(
          { schema: Check, description: 'Whether it holds, and if not what was changed' },
          400,
          413,
          415,
          422,
        ),
      },
    },
    async ({ body }) => {
      const check = await seals.check(body)
      return { outcome: check.kind, says: check.kind === 'holds' ? null : check.says } satisfies SealCheckAnswer
    },
  )

  app.get(
    '/api/backups',
    {
      schema: {
        tags,
        summary: 'The backups that are kept, and how the last one went',
        response: answers({ schema: BackupList, description: 'Schedule, last outcome and files' }),
      },
    },
    async () => (await backups.state()) satisfies BackupsAnswer,
  )

  app.post(
    '/api/backups',
    {
      schema: {
        tags,
        summary: 'Make a backup now',
        description: 'It is made in the background; GET /api/backups tells how it went.',
        response: answers({ schema: BackupList, description: 'The state now', status: 202 }, 501),
      },
    },
    async (_request, reply) => {
      if (!backups.begin()) return sendProblem(reply, noBackupFolder())
      return reply.code(202).send((await backups.state()) satisfies BackupsAnswer)
    },
  )
}
