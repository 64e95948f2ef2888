import { z } from 'zod'
import { EntryId, SentEntry } from '#road/entry.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Reader } from '#journal/journal.ts'
import type { AddRoutes } from '../app-type.ts'
import type { EntriesPage, EntryAnswer, EntryJudged } from '../api-types.ts'
import { answerTo, recordEntries, toAnswer } from '../entries/record-entries.ts'
import { judgeEntry } from '../entries/judge-entry.ts'
import { sendProblem } from '../problem-reply.ts'
import { notFound, unusableInput } from '../problems.ts'
import { answers } from '../schemas/answers.ts'
import {
  EntriesPageAnswer,
  EntryAnswers,
  EntryJudgedAnswer,
  EntryKeptAnswer,
  KeptEntryAnswer,
} from '../schemas/entry.ts'
import { AnySubject, count } from '../schemas/known.ts'
import { authoriseFor } from '../sign-in/authorise-entry.ts'
import { readAsItIs } from '../validation.ts'

const mostAtOnce = 1000

const Page = z.strictObject({
  subject: AnySubject.optional(),
  upTo: count(0, Number.MAX_SAFE_INTEGER).optional(),
  after: count(0, Number.MAX_SAFE_INTEGER).default(0),
  limit: count(1, mostAtOnce).default(100),
})

/** Recording, judging and reading entries. */
export const addEntryRoutes: AddRoutes = (app, context) => {
  const { reader, config } = context
  const tags = ['entries']

  app.post(
    '/api/entries',
    {
      bodyLimit: config.entriesLimitBytes,
      // The journal reads each entry by itself, so that one bad entry of a list does not take the others with it.
      validatorCompiler: readAsItIs,
      schema: {
        tags,
        summary: 'Record an entry, or a list of entries in order',
        description: `The id of an entry makes a repeat harmless. At most ${mostAtOnce} entries at once; each of a list is kept or not by itself.`,
        body: z.union([SentEntry, z.array(SentEntry).max(mostAtOnce)]),
        response: answers(
          {
            schema: z.union([EntryKeptAnswer, EntryAnswers]),
            description: '201 kept; 200 kept before, or the outcomes of a list',
            status: 201,
            also: 200,
          },
          400,
          409,
          413,
          415,
          422,
        ),
      },
    },
    async (request, reply) => {
      const body: unknown = request.body
      const authorise = authoriseFor(context, request.who)
      if (Array.isArray(body)) {
        if (body.length > mostAtOnce) return sendProblem(reply, tooMany(body.length))
        const outcomes = await recordEntries(context, body, authorise)
        return reply.send(outcomes.map(toAnswer) satisfies EntryAnswer[])
      }
      const [outcome] = await recordEntries(context, [body], authorise)
      return answerTo(reply, outcome)
    },
  )

  app.post(
    '/api/entries/judge',
    {
      bodyLimit: config.entriesLimitBytes,
      validatorCompiler: readAsItIs,
      schema: {
        tags,
        summary: 'Judge an entry by the same rules, writing nothing',
        body: SentEntry,
        response: answers({ schema: EntryJudgedAnswer, description: 'What the rules say' }, 400, 409, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const judged = await judgeEntry(context, request.body)
      if ('problem' in judged) return sendProblem(reply, judged.problem)
      return reply.send(judged satisfies EntryJudged)
    },
  )

  app.get(
    '/api/entries',
    {
      schema: {
        tags,
        summary: 'Entries in the order of the chain, or those about one subject in the order of folding',
        querystring: Page,
        response: answers({ schema: EntriesPageAnswer, description: 'A page of entries' }, 422),
      },
    },
    async (request, reply) => {
      const { subject, ...page } = request.query
      const answer = subject === undefined ? chainPage(reader, page) : pageAbout(reader, subject, page)
      return reply.send(await answer)
    },
  )

  app.get(
    '/api/entries/:id',
    {
      schema: {
        tags,
        summary: 'One entry',
        params: z.strictObject({ id: EntryId }),
        response: answers({ schema: KeptEntryAnswer, description: 'The entry as it was kept' }, 404, 422),
      },
    },
    async (request, reply) => {
      const entry = await reader.entry(request.params.id)
      return entry ?? sendProblem(reply, notFound('id', 'the id of a kept entry', request.params.id))
    },
  )
}

interface PageOf {
  readonly after: number
  readonly limit: number
  readonly upTo?: number | undefined
}

async function chainPage(reader: Reader, { after, limit, upTo }: PageOf): Promise<EntriesPage> {
  const page = await reader.entries({ afterSeq: after, limit })
  const entries = page.filter((entry) => entry.seq <= (upTo ?? Number.MAX_SAFE_INTEGER))
  const last = entries.at(-1)
  return { entries, next: last !== undefined && entries.length === limit ? last.seq : null }
}

/** In the order of folding, so a page goes on at a place in it and not at a number of the chain. */
async function pageAbout(reader: Reader, subject: SubjectId, { after, limit, upTo }: PageOf): Promise<EntriesPage> {
  const all = await reader.entriesAbout(subject, upTo === undefined ? {} : { upToSeq: upTo })
  const entries = all.slice(after, after + limit)
  return { entries, next: after + entries.length < all.length ? after + entries.length : null }
}

function tooMany(came: number) {
  return unusableInput([{ field: 'body', wanted: `list of <= ${mostAtOnce} entries`, current: `${came} entries` }])
}
