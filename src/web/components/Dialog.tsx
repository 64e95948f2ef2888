import { type ReactNode, useEffect, useId, useRef } from 'react'
import { createPortal } from 'react-dom'
import { words } from '../words/words.ts'

interface Props {
  readonly title: string
  readonly drawer?: boolean
  readonly onClose: () => void
  readonly children: ReactNode
}

/** The browser's own modal dialog: it keeps the focus in, closes on Escape and gives the focus back. */
export function Dialog({ title, drawer = false, onClose, children }: Props) {
  const dialog = useRef<HTMLDialogElement>(null)
  const label = useId()
  useEffect(() => {
    const element = dialog.current
    if (element?.open === false) element.showModal()
  }, [])
  return createPortal(
    <dialog
      ref={dialog}
      className={drawer ? 'drawer' : ''}
      aria-labelledby={label}
      onClose={onClose}
      // A form in a dialog is not part of the form that the dialog was opened from.
      onSubmit={(event) => event.stopPropagation()}
    >
      <div className="stack">
        <div className="row apart">
          <h2 id={label}>{title}</h2>
          <button type="button" onClick={() => dialog.current?.close()}>
            {words.shell.close}
          </button>
        </div>
        {children}
      </div>
    </dialog>,
    document.body,
  )
}
