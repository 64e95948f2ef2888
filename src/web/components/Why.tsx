import { type ReactNode, useState } from 'react'
import type { Source } from '#units/source.ts'
import { words } from '../words/words.ts'
import { Dialog } from './Dialog.tsx'
import { part } from './part.tsx'

const WhyDrawer = part(async () => (await import('./WhyDrawer.tsx')).WhyDrawer, <p>{words.loading}</p>)

/** All that stands behind a figure. */
export interface Reason {
  readonly title: string
  readonly value?: string | undefined
  readonly says?: string | undefined
  /** The working that computed it, by its id. */
  readonly working?: string | undefined
  readonly inputs?: string | undefined
  readonly limit?: string | undefined
  readonly rule?: string | undefined
  readonly source?: Source | string | undefined
  /** The entry that it came from. */
  readonly entry?: string | undefined
}

/** A figure that opens what stands behind it. */
export function Why({ of, children }: { readonly of: Reason; readonly children: ReactNode }) {
  const [open, setOpen] = useState(false)
  return (
    <>
      <button type="button" className="why" aria-haspopup="dialog" onClick={() => setOpen(true)}>
        {children}
        <span className="unseen"> {words.why.label(of.title)}</span>
      </button>
      {open && (
        <Dialog title={of.title} drawer onClose={() => setOpen(false)}>
          <WhyDrawer of={of} />
        </Dialog>
      )}
    </>
  )
}
