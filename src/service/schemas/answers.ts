import { z } from 'zod'
import { Finding } from '#road/finding.ts'
import { problemMediaType } from '../problem-reply.ts'

const ProblemField = z.object({ field: z.string(), wanted: z.string(), current: z.string() })

/** RFC 9457, with what the rules found or what is wrong with the input. */
export const ProblemAnswer = z
  .object({
    type: z.string(),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    remedy: z.string(),
    instance: z.string().optional(),
    findings: z.array(Finding).optional(),
    problems: z.array(ProblemField).optional(),
  })
  .meta({ title: 'Problem' })

const meanings = {
  400: 'The body is not JSON, or the request cannot be read',
  401: 'Nobody is signed in, or the secret is wrong',
  403: 'Not among the tasks of these roles, or a signature is missing',
  404: 'Nothing of that name is on record',
  409: 'Refused by the rules, or by what is on record already',
  413: 'The body is too large',
  415: 'The media type is not taken here',
  422: 'The input cannot be used: each field with what was wanted and what came',
  429: 'More was asked in a minute than is answered; Retry-After says when to ask again',
  500: 'A failure of the program, with the number under which it is logged',
  501: 'Not part of this installation',
  503: 'The calculation took too long, as many streams are open as may be, or the record cannot be used at the moment',
} as const
type ProblemStatus = keyof typeof meanings

const anywhere = [401, 403, 429, 500] as const

interface Described {
  readonly description: string
  readonly content: Record<string, { readonly schema: z.ZodType }>
}

/**
 * The answers of a route: the good one, and its problems by status. A failure of ours may happen anywhere, and so may the
 * lack of a right, or too much at once.
 */
export function answers(
  good: {
    readonly schema: z.ZodType
    readonly description: string
    readonly status?: 200 | 201 | 202
    readonly also?: 200
  },
  ...problems: readonly Exclude<ProblemStatus, (typeof anywhere)[number]>[]
): Record<number, Described> {
  const described = (description: string, type: string, schema: z.ZodType): Described => ({
    description,
    content: { [type]: { schema } },
  })
  const statuses = [good.status ?? 200, ...(good.also === undefined ? [] : [good.also])]
  return Object.fromEntries([
    ...statuses.map((status) => [status, described(good.description, 'application/json', good.schema)] as const),
    ...([...problems, ...anywhere] as const).map(
      (status) => [status, described(meanings[status], problemMediaType, ProblemAnswer)] as const,
    ),
  ])
}

/** An answer of another type than JSON: bytes, or a stream of events. */
export function rawAnswer(
  description: string,
  type: string,
  ...problems: readonly Exclude<ProblemStatus, (typeof anywhere)[number]>[]
): Record<number, Described> {
  const rest = answers({ schema: z.string(), description }, ...problems)
  return { ...rest, 200: { description, content: { [type]: { schema: z.string() } } } }
}
