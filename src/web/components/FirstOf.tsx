import { type ReactNode, useState } from 'react'
import { words } from '../words/words.ts'

interface Props<Row> {
  readonly rows: readonly Row[]
  /** How many are shown before somebody asks for all. */
  readonly most: number
  readonly children: (rows: readonly Row[]) => ReactNode
}

/** The beginning of a long list, and a button for the rest, so that what follows it on the page is not out of reach. */
export function FirstOf<Row>({ rows, most, children }: Props<Row>) {
  const [all, setAll] = useState(false)
  // One or two more take no more room than the button.
  const cut = !all && rows.length > most + 2
  return (
    <>
      {children(cut ? rows.slice(0, most) : rows)}
      {cut && (
        <p className="no-print">
          <button type="button" onClick={() => setAll(true)}>
            {words.form.showAll(rows.length)}
          </button>
        </p>
      )}
    </>
  )
}
