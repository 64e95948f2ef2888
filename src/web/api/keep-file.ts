import type { AttachmentKept } from '#service/api-types.ts'
import { ask } from './client.ts'

/** Gives a file to the record; the same bytes again change nothing. */
export function keepFile(file: Blob, mediaType = 'text/plain'): Promise<AttachmentKept> {
  return ask('/api/attachments', {
    method: 'PUT',
    headers: { 'content-type': mediaType },
    body: file,
  })
}
