import { type ReactNode, useState } from 'react'
import { useLocation } from 'react-router'
import { usePrinting } from '../session/use-printing.ts'

interface Props {
  readonly title: string
  /** What can be said of it while it is folded, such as how much there is. */
  readonly says?: string | undefined
  /** By which an address of the page opens it. */
  readonly id?: string | undefined
  readonly children: ReactNode
}

/** A long part of a page: rendered only once it is opened, by hand or by an address that leads to it, and whole on paper. */
export function Folded({ title, says, id, children }: Props) {
  const [open, setOpen] = useState(false)
  const [ledBy, setLedBy] = useState('')
  const printing = usePrinting()
  const { hash, key } = useLocation()
  // Once for each going there: who folds it again has it folded.
  if (id !== undefined && hash === `#${id}` && ledBy !== key) {
    setLedBy(key)
    setOpen(true)
  }
  const shown = open || printing
  return (
    <details id={id} className="folded" open={shown}>
      <summary
        onClick={(event) => {
          // The state says what is open, so that printing can open it and leave it as it was.
          event.preventDefault()
          setOpen(!open)
        }}
      >
        <h2>{title}</h2>
        {says !== undefined && <span className="small soft">{says}</span>}
      </summary>
      {shown && <div className="stack">{children}</div>}
    </details>
  )
}
