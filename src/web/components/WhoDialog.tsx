import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { knownQuery } from '../api/queries.ts'
import { useStore } from '../session/use-store.ts'
import { whoStore, workstationStore } from '../session/who.ts'
import { words } from '../words/words.ts'
import { Dialog } from './Dialog.tsx'
import { Loaded } from './Loaded.tsx'

export function WhoDialog({ onClose }: { readonly onClose: () => void }) {
  const people = useQuery(knownQuery('person', ['active']))
  const who = useStore(whoStore)
  return (
    <Dialog title={words.who.title} onClose={onClose}>
      <p className="soft">{words.who.note}</p>
      <Loaded query={people}>
        {(rows) =>
          rows.length === 0 ? (
            <p>{words.who.none}</p>
          ) : (
            <ul className="lines">
              {rows.map((row) => (
                <li key={row.subject}>
                  <button
                    type="button"
                    className={row.subject === who ? 'main grow' : 'quiet grow'}
                    style={{ justifyContent: 'space-between' }}
                    onClick={() => {
                      whoStore.set(row.subject)
                      onClose()
                    }}
                  >
                    <span>{row.state.name}</span>
                    <span className="small">{row.state.roles.map((role) => words.unit.roles[role]).join(', ')}</span>
                  </button>
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
      <WorkstationName />
    </Dialog>
  )
}

function WorkstationName() {
  const kept = useStore(workstationStore)
  const [name, setName] = useState(kept)
  return (
    <div className="field">
      <label htmlFor="workstation">{words.who.workstation}</label>
      <div className="row">
        <input
          id="workstation"
          value={name}
          maxLength={80}
          style={{ flex: '1 1 10rem', width: 'auto' }}
          onChange={(event) => setName(event.target.value)}
        />
        <button
          type="button"
          disabled={name.trim() === '' || name === kept}
          onClick={() => workstationStore.set(name.trim())}
        >
          {words.who.keep}
        </button>
      </div>
    </div>
  )
}
