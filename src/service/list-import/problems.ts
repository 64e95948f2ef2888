import type { ApiProblem } from '../api-types.ts'
import { problem } from '../problems.ts'

/** What a person saw and confirmed is not what would be recorded now. */
export function listChanged(): ApiProblem {
  return problem('list-changed', {
    title: 'The record has changed since the list was looked at',
    status: 409,
    detail: 'What would be recorded now is not what was shown.',
    remedy: 'Look at the list again, and confirm what it shows then. Nothing was written.',
  })
}

export function listBusy(): ApiProblem {
  return problem('list-busy', {
    title: 'Another list is being recorded',
    status: 409,
    detail: 'Lists are recorded one after another.',
    remedy: 'Look at the list again in a moment. Nothing was written.',
  })
}
