import { z } from 'zod'
import { type SubjectKind, subjectKinds } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import type { FindAnswer } from '../api-types.ts'
import { findSubjects } from '../find/find-subjects.ts'
import { answers } from '../schemas/answers.ts'
import { AnySubject } from '../schemas/known.ts'

const Found = z.object({
  found: z.array(
    z.object({
      subject: AnySubject,
      kind: z.enum(subjectKinds satisfies readonly SubjectKind[]),
      standing: z.string(),
      title: z.string(),
      exact: z.boolean(),
    }),
  ),
})

/** Scan or type: what it was decides where one lands. */
export const addFindRoutes: AddRoutes = (app, { reader }) => {
  app.get(
    '/api/find',
    {
      schema: {
        tags: ['known'],
        summary: 'Subjects with exactly this key, then those whose name or key holds the text',
        description:
          'Names of everything registered; of rounds, loads, cases, wounds and recalls the keys of the latest.',
        querystring: z.strictObject({ text: z.string().trim().min(1).max(120) }),
        response: answers({ schema: Found, description: 'What was found, exact first' }, 422),
      },
    },
    async (request, reply) =>
      reply.send({ found: await findSubjects(reader, request.query.text) } satisfies FindAnswer),
  )
}
