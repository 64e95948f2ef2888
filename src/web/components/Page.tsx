import { type ReactNode, useEffect } from 'react'
import { useNow } from '../session/use-now.ts'
import { words } from '../words/words.ts'
import { usePrintMargins } from './use-print-margins.ts'
import { useTimes, useUnit } from '../session/unit.ts'

interface Props {
  readonly title: string
  readonly lead?: ReactNode
  /** What tells its sheets from others of the same title. */
  readonly onPaper?: string
  readonly children: ReactNode
}

/** A page of the document: its heading, what it says, and on paper who it is from. */
export function Page({ title, lead, onPaper, children }: Props) {
  useEffect(() => {
    document.title = `${title} · ${words.program}`
  }, [title])
  return (
    <>
      <PrintHead title={onPaper === undefined ? title : `${title} ${onPaper}`} />
      <header className="stack">
        <h1>{title}</h1>
        {lead !== undefined && <div className="soft">{lead}</div>}
      </header>
      {children}
    </>
  )
}

function PrintHead({ title }: { readonly title: string }) {
  const { unit } = useUnit()
  const now = useNow(60)
  const times = useTimes()
  const whose = [unit.name, ...(unit.demonstration ? [words.demonstration] : [])].join(' · ')
  usePrintMargins(`${whose} · ${title}`, words.caution)
  return (
    <div className="print-only">
      <p>
        {whose} · {times.moment(new Date(now).toISOString())}
      </p>
      <p>{words.caution}</p>
    </div>
  )
}
