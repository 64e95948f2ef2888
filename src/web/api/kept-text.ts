import { ask } from './client.ts'

/** The text of a kept file, by its digest; what is no text is shown as well as it can be. */
export function keptText(digest: string): Promise<string> {
  return ask<string>(`/api/attachments/${digest}`)
}
