import { z } from 'zod'
import { SiteId } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import type { AddRoutes } from '../app-type.ts'
import type { GroupAnswer } from '../group/group-answer.ts'
import { compareSites, mostDaysCompared } from '../group/compare-sites.ts'
import { sendProblem } from '../problem-reply.ts'
import { noGroup } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import { count } from '../schemas/known.ts'
import { RateAnswer } from '../schemas/wounds.ts'

const Comparison = z.object({
  days: z.int(),
  sites: z.array(
    z.object({
      site: SiteId,
      name: z.string().nullable(),
      entries: z.int(),
      lastRecordedAt: Instant.nullable(),
      openRecalls: z.int(),
      indicators: z.object({ read: z.int(), grown: z.int() }),
      rate: RateAnswer,
      preventionComplete: z.int(),
    }),
  ),
})

/** The sites of a group side by side, for the site whose service was given the right to it. */
export const addGroupRoutes: AddRoutes = (app, { journal, config, now }) => {
  app.get(
    '/api/group',
    {
      schema: {
        tags: ['unit'],
        summary:
          'The sites of the group side by side: open recalls, indicators, rates with exact intervals, completeness',
        description:
          'Only where the service was started with NILGROWTH_GROUP. Counts and rates: no patient, no person.',
        querystring: z.strictObject({ days: count(1, mostDaysCompared).default(365) }),
        response: answers({ schema: Comparison, description: 'A row for each site' }, 422, 501),
      },
    },
    async (request, reply) => {
      if (config.group.length === 0) return sendProblem(reply, noGroup())
      const asked = { now: now(), days: request.query.days }
      return (await compareSites(journal, config.group, asked)) satisfies GroupAnswer
    },
  )
}
