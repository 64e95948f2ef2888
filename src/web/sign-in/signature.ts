import type { SentEntry } from '#road/entry.ts'
import type { ApiProblem } from '#service/api-types.ts'
import { ProblemError } from '../api/client.ts'
import { makeStore } from '../session/store.ts'

/*
 * A decision that has to be signed waits here while the person at the screen signs it. One at a time: a dialog holds the
 * screen until it is signed or left.
 */

export interface SignatureAsked {
  readonly entry: SentEntry
  readonly title: string
  readonly author: boolean
  /** Whose second signature is wanted, in the service's words; null when none is. */
  readonly second: string | null
  readonly settle: (signed: boolean) => void
}

export const signatureStore = makeStore<SignatureAsked | null>(null)

export function isUnsigned(error: unknown): error is ProblemError {
  return error instanceof ProblemError && error.problem.type === '/problems/signature-needed'
}

/**
 * Asks for the signatures that the problem names, and sends what was signed before the dialog goes: when it is gone, the
 * decision is recorded or its form says why not. Null when the person leaves the dialog.
 */
export async function askSignature<Answer>(
  entry: SentEntry,
  title: string,
  { problems = [] }: ApiProblem,
  send: () => Promise<Answer>,
): Promise<Answer | null> {
  const wanted = (field: string): string | null => problems.find((each) => each.field === field)?.wanted ?? null
  try {
    const signed = await new Promise<boolean>((settle) => {
      signatureStore.set({ entry, title, author: wanted('author') !== null, second: wanted('second'), settle })
    })
    return signed ? await send() : null
  } finally {
    signatureStore.set(null)
  }
}
