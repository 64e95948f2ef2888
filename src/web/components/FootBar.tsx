import { useEffect, useState } from 'react'
import { NavLink, useLocation } from 'react-router'
import { paths } from '../paths.ts'
import { words } from '../words/words.ts'
import { Dialog } from './Dialog.tsx'
import { Plan } from './Plan.tsx'
import { findBoxId } from './use-scanner.ts'

/** On a phone the plan is folded away behind a bar at the thumb. */
export function FootBar() {
  const [open, setOpen] = useState(false)
  const { pathname } = useLocation()
  useEffect(() => setOpen(false), [pathname])
  return (
    <div className="foot-bar">
      <NavLink className="button" to={paths.round} end>
        {words.shell.round}
      </NavLink>
      <button type="button" onClick={() => document.getElementById(findBoxId)?.focus()}>
        {words.shell.find}
      </button>
      <button type="button" aria-haspopup="dialog" onClick={() => setOpen(true)}>
        {words.shell.plan}
      </button>
      {open && (
        <Dialog title={words.shell.planLabel} onClose={() => setOpen(false)}>
          <Plan />
        </Dialog>
      )}
    </div>
  )
}
