import type { AttachmentKept } from '#service/api-types.ts'
import { ask } from './client.ts'

/** Gives a file to the record; the same bytes again change nothing. */
export function keepFile(file: Blob): Promise<AttachmentKept> {
  return ask('/api/attachments', {
    method: 'PUT',
    headers: { 'content-type': 'text/plain' },
    body: file,
  })
}
