import type { KnownOf } from './known.ts'
import type { Look } from './look.ts'
import type { SubjectId, SubjectKind } from './subject.ts'

/**
 * A look that asks for what is known of each subject once, also when many ask at the same time. For one question that
 * comes back to the same subjects, as many recalls on one steriliser do; not to be kept, since what is known goes on.
 */
export function lookOnce(look: Look): Look {
  const asked = new Map<SubjectId, Promise<void>>()
  const got = new Map<SubjectId, KnownOf<SubjectKind>>()
  const ask = async (ids: readonly SubjectId[]): Promise<void> => {
    for (const [id, state] of await look.known(ids)) got.set(id, state)
  }
  return {
    links: (query) => look.links(query),
    standing: (kind, standings) => look.standing(kind, standings),
    async known<K extends SubjectKind>(ids: readonly SubjectId<K>[]) {
      const fresh = ids.filter((id) => !asked.has(id))
      if (fresh.length > 0) {
        const answer = ask(fresh)
        for (const id of fresh) asked.set(id, answer)
      }
      await Promise.all(ids.flatMap((id) => asked.get(id) ?? []))
      const found = new Map<SubjectId<K>, KnownOf<K>>()
      for (const id of ids) {
        const state = got.get(id)
        if (state !== undefined) found.set(id, state as KnownOf<K>)
      }
      return found
    },
  }
}
