import { z } from 'zod'
import { describeProblem, problemsOf } from '#units/problem.ts'
import { type KeptEntry, Judgement, SentEntry } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { Signature } from '#road/people/signature.ts'
import { canonicalJson } from './canonical-json.ts'
import { type ChainLink, hashOfText } from './chain.ts'

const KeptText = z.strictObject({
  ...SentEntry.shape,
  seq: z.int().min(1),
  recordedAt: Instant,
  judgement: Judgement,
  signed: z.array(Signature).min(1).readonly().optional(),
  previousHash: z.string().regex(/^[0-9a-f]{64}$/),
})

export type ReadKept =
  | { readonly kind: 'entry'; readonly entry: KeptEntry }
  | { readonly kind: 'wrong'; readonly says: string }

/** Reads an entry that need not be right, one from a file or from a store in doubt, and says what is wrong with it. */
export function readKept({ text, hash }: ChainLink): ReadKept {
  const computed = hashOfText(text)
  if (computed !== hash) return wrong(`its text gives the hash ${computed}, but it carries ${hash}`)
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return wrong('its text is not JSON')
  }
  const parsed = KeptText.safeParse(value)
  if (!parsed.success)
    return wrong(`its text is no entry: ${problemsOf(parsed.error, value).map(describeProblem).join('; ')}`)
  // A member named twice, or white space, would make the text say one thing to a reader and another to a program.
  if (canonicalJson(value) !== text) return wrong('its text is not canonical JSON')
  const { signed, ...rest } = parsed.data
  return { kind: 'entry', entry: { ...rest, ...(signed === undefined ? {} : { signed }), hash } }
}

function wrong(says: string): ReadKept {
  return { kind: 'wrong', says }
}
