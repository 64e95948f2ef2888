import type { EntryProgress } from '../session/use-entry.ts'
import { words } from '../words/words.ts'
import { Findings } from './Findings.tsx'
import { ProblemNote } from './ProblemNote.tsx'

/** What became of the entry of a form. */
export function Progress({ progress }: { readonly progress: EntryProgress }) {
  if (progress.at === 'refused') return <ProblemNote error={progress.error} />
  return (
    <output className="stack">
      {progress.at === 'waiting' && <p className="told">{words.form.waiting}</p>}
      {progress.at === 'kept' && (
        <div className="told stack">
          <p>{progress.findings.length === 0 ? words.form.kept : words.form.keptWith}</p>
          {progress.findings.length > 0 && <Findings findings={progress.findings} />}
        </div>
      )}
    </output>
  )
}
