import { z } from 'zod'
import { Instant } from '#road/instant.ts'
import type { AddRoutes } from '../app-type.ts'
import type { HealthAnswer } from '../api-types.ts'
import { answers } from '../schemas/answers.ts'

const Health = z.object({
  health: z.literal('good'),
  version: z.string(),
  engine: z.enum(['sqlite', 'postgres']),
  head: z.int(),
  now: Instant,
  standby: z.enum(['confirms', 'missing', 'hidden', 'alone', 'notSeenYet', 'notExpected']),
})

/** Whether the service answers and its store can be read. */
export const addHealthRoutes: AddRoutes = (app, { reader, version, engine, now, standby }) => {
  app.get(
    '/api/health',
    {
      schema: {
        tags: ['unit'],
        summary: 'Whether the service answers and its store can be read',
        response: answers({ schema: Health, description: 'It does' }),
      },
    },
    async () => {
      const head = await reader.head()
      const seen = { head: head?.seq ?? 0, now: now(), standby: standby.state() }
      return { health: 'good', version, engine, ...seen } satisfies HealthAnswer
    },
  )
}
