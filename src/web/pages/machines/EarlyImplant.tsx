import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

type Early = Bodies['load-decided']['earlyImplant']

const empty = { implant: '', emergency: '', wouldHavePrevented: '' }

export function EarlyImplant({ onChange }: { readonly onChange: (early: Early) => void }) {
  const [early, setEarly] = useState(empty)
  const w = words.machines.decide
  const change = (part: Partial<typeof empty>) => {
    const next = { ...early, ...part }
    setEarly(next)
    const complete = next.implant !== '' && next.emergency.length >= 10 && next.wouldHavePrevented.length >= 3
    onChange(complete ? next : undefined)
  }
  return (
    <details>
      <summary>{w.early}</summary>
      <div className="form">
        <p className="soft">{w.earlySays}</p>
        <TextField label={w.implant} optional value={early.implant} onChange={(implant) => change({ implant })} />
        <TextField
          label={w.emergency}
          optional
          long
          value={early.emergency}
          onChange={(emergency) => change({ emergency })}
        />
        <TextField
          label={w.prevented}
          optional
          value={early.wouldHavePrevented}
          onChange={(wouldHavePrevented) => change({ wouldHavePrevented })}
        />
      </div>
    </details>
  )
}
