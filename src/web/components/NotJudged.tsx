import { isPassing, isUnheard, ProblemError } from '../api/client.ts'
import { connectionStore } from '../offline/connection.ts'
import { useStore } from '../session/use-store.ts'
import { fieldWords } from '../words/field-words.ts'
import { words } from '../words/words.ts'
import { ProblemNote } from './ProblemNote.tsx'
import type { Judgement } from './use-judgement.ts'

/**
 * Why the rules gave no answer on what is being entered: an entry that nobody has judged is no yes. What is only not typed
 * to its end yet is said quietly; an answer that stands is left to stand while the service is away for a moment.
 */
export function NotJudged({ judgement: { error, data, refetch } }: { readonly judgement: Judgement }) {
  const cutOff = useStore(connectionStore) === 'none'
  if (error === null || (data !== undefined && isPassing(error))) return null
  // Without the network the form says so by itself.
  if (cutOff && isUnheard(error)) return null
  const problems = error instanceof ProblemError ? (error.problem.problems ?? []) : []
  if (problems.length > 0 && problems.every(({ field }) => field.startsWith('body.'))) {
    const wanted = problems.map((each) => `${fieldWords(each.field)}: ${words.problem.wanted} ${each.wanted}`)
    return <p className="soft">{words.form.unfinished(wanted.join('; '))}</p>
  }
  return (
    <div className="stack">
      <p>
        <strong>{words.form.notJudged}</strong>
      </p>
      <ProblemNote error={error} retry={() => void refetch()} />
    </div>
  )
}
