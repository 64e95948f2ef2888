import { useQuery } from '@tanstack/react-query'
import { sealsQuery } from '../../api/keeping-queries.ts'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'
import './seal.css'

/** The last seal as it goes on paper, or into a file to be sent elsewhere. */
export function SealPage() {
  const w = words.keeping
  const { data, error } = useQuery(sealsQuery)
  const last = data?.seals[0]
  return (
    <Page title={w.paperTitle} lead={w.paperLead}>
      {error !== null && <ProblemNote error={error} />}
      {data !== undefined && last === undefined && <p>{w.noSeal}</p>}
      {last !== undefined && (
        <>
          <div className="row no-print">
            <button type="button" onClick={() => globalThis.print()}>
              {w.print}
            </button>
            <a
              className="button"
              download={w.fileName(last.seal.sealedAt.slice(0, 10))}
              href={`data:text/plain;charset=utf-8,${encodeURIComponent(last.text)}`}
            >
              {w.save}
            </a>
          </div>
          <pre className="seal-paper">{last.text}</pre>
        </>
      )}
    </Page>
  )
}
