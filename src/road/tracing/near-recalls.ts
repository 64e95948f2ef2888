import type { Look } from '../look.ts'
import type { SubjectId } from '../subject.ts'
import type { RecallKnown } from './fold.ts'

/**
 * The open recalls that can reach any of what is asked about: of a steriliser or a bath that `has` names, or of a load
 * of no steriliser. What a lot went into is known only from its links, so every open recall of one counts. What is left
 * out is not looked at any further: how far a recall reaches is costly to say.
 */
export async function nearRecalls(look: Look, has: (subject: SubjectId) => boolean): Promise<readonly RecallKnown[]> {
  const open = await look.standing('recall', ['open'])
  if (open.length === 0) return []
  const failed = await look.known(open.flatMap((recall) => recall.load ?? []))
  return open.filter((recall) => {
    if (recall.lot !== null) return true
    if (recall.bath !== null) return has(recall.bath)
    if (recall.load === null) return false
    return has(failed.get(recall.load)?.machine ?? recall.load)
  })
}
