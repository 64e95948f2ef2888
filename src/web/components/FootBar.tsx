import { useState } from 'react'
import { NavLink, useLocation } from 'react-router'
import { paths } from '../paths.ts'
import { words } from '../words/words.ts'
import { Dialog } from './Dialog.tsx'
import { Plan } from './Plan.tsx'
import { findBoxId } from './use-scanner.ts'

/** On a phone the plan is folded away behind a bar at the thumb. */
export function FootBar() {
  const { pathname } = useLocation()
  // Open as long as nobody has gone anywhere.
  const [openAt, setOpenAt] = useState<string | null>(null)
  return (
    <nav className="foot-bar" aria-label={words.shell.barLabel}>
      <NavLink className="button" to={paths.round} end>
        {words.shell.round}
      </NavLink>
      <button type="button" onClick={() => document.getElementById(findBoxId)?.focus()}>
        {words.shell.find}
      </button>
      <button type="button" aria-haspopup="dialog" onClick={() => setOpenAt(pathname)}>
        {words.shell.plan}
      </button>
      {openAt === pathname && (
        <Dialog title={words.shell.planLabel} onClose={() => setOpenAt(null)}>
          <Plan />
        </Dialog>
      )}
    </nav>
  )
}
