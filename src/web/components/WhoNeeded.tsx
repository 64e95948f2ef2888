import { useState } from 'react'
import { useStore } from '../session/use-store.ts'
import { whoStore } from '../session/who.ts'
import { words } from '../words/words.ts'
import { WhoDialog } from './WhoDialog.tsx'

/** Nothing is recorded without a name; says so, and lets one be chosen on the spot. */
export function WhoNeeded() {
  const who = useStore(whoStore)
  const [open, setOpen] = useState(false)
  if (who !== null && !open) return null
  return (
    <div className="row">
      <p>{words.who.needed}</p>
      <button type="button" onClick={() => setOpen(true)}>
        {words.who.choose}
      </button>
      {open && <WhoDialog onClose={() => setOpen(false)} />}
    </div>
  )
}
