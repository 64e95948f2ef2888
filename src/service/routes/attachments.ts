import { z } from 'zod'
import { AttachmentDigest } from '#road/attachment.ts'
import type { AddRoutes } from '../app-type.ts'
import type { AttachmentKept } from '../api-types.ts'
import { sendProblem } from '../problem-reply.ts'
import { picturesWanted, pictureType } from '../picture-type.ts'
import { notFound, unusableInput, wrongMediaType } from '../problems.ts'
import { answers, rawAnswer } from '../schemas/answers.ts'

const mediaType = /^[a-z]+\/[a-z0-9.+-]+(?:;\s*charset=[a-z0-9-]+)?$/i

const Bytes = z.instanceof(Uint8Array).meta({ type: 'string', format: 'binary' })

/** Files that entries name by their digest. */
export const addAttachmentRoutes: AddRoutes = (app, { journal, reader, config }) => {
  const tags = ['attachments']

  app.register(async (files) => {
    files.removeAllContentTypeParsers()
    files.addContentTypeParser('*', { parseAs: 'buffer' }, (_request, body, done) => done(null, body))
    files.put(
      '/api/attachments',
      {
        bodyLimit: config.attachmentLimitBytes,
        schema: {
          tags,
          summary: 'Keep a file; the same bytes again change nothing',
          consumes: ['application/octet-stream'],
          body: Bytes,
          response: answers(
            { schema: z.object({ digest: AttachmentDigest }), description: 'The SHA-256 of the bytes' },
            413,
            415,
            422,
          ),
        },
      },
      async (request, reply) => {
        const type = request.headers['content-type'] ?? 'missing'
        const bytes = Bytes.parse(request.body)
        if (!mediaType.test(type)) return sendProblem(reply, wrongMediaType('a media type such as text/csv', type))
        if (bytes.length === 0) {
          return sendProblem(reply, unusableInput([{ field: 'body', wanted: 'at least one byte', current: 'empty' }]))
        }
        const picture = pictureType(bytes)
        if (type.toLowerCase().startsWith('image/') && picture === undefined) {
          const current = `other first bytes: ${Buffer.from(bytes.subarray(0, 8)).toString('hex')}`
          return sendProblem(reply, unusableInput([{ field: 'body', wanted: picturesWanted, current }]))
        }
        // Cameras and old browsers name one picture by several types; what it is says itself.
        return { digest: await journal.attach(bytes, picture ?? type) } satisfies AttachmentKept
      },
    )
  })

  app.get(
    '/api/attachments/:digest',
    {
      schema: {
        tags,
        summary: 'The bytes of a kept file',
        params: z.strictObject({ digest: AttachmentDigest }),
        response: rawAnswer(
          'The bytes, with the media type that they were kept with',
          'application/octet-stream',
          404,
          422,
        ),
      },
    },
    async (request, reply) => {
      const { digest } = request.params
      const kept = await reader.attachment(digest)
      if (kept === undefined) return sendProblem(reply, notFound('digest', 'the digest of a kept file', digest))
      // Sent to be saved and never shown: what people upload must not run as a page of ours.
      return reply
        .type(kept.mediaType)
        .header('content-disposition', `attachment; filename="${digest.slice(0, 12)}"`)
        .header('cache-control', 'private, max-age=31536000, immutable')
        .serializer((value: unknown) => value as string)
        .send(Buffer.from(kept.bytes))
    },
  )
}
