import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link, useNavigate } from 'react-router'
import type { Bodies } from '#road/kinds.ts'
import { knownQuery } from '../../api/queries.ts'
import { Empty } from '../../components/Empty.tsx'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Page } from '../../components/Page.tsx'
import { useSearchKey } from '../../components/use-key.ts'
import { datedKey } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { whoStore } from '../../session/who.ts'
import { useStore } from '../../session/use-store.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { WoundPlaces } from './WoundPlaces.tsx'

export function InvestigationsPage() {
  const times = useTimes()
  const chart = useSearchKey('chart')
  const w = words.wounds.investigation
  return (
    <Page title={w.title}>
      <WoundPlaces />
      <Loaded query={useQuery(knownQuery('investigation'))}>
        {(rows) =>
          rows.length === 0 ? (
            <Empty>{w.none}</Empty>
          ) : (
            <ul className="lines">
              {rows.map((row) => (
                <li key={row.subject}>
                  <div className="grow">
                    <Link to={paths.investigation(row.state.id)}>{row.state.opened?.why ?? row.subject}</Link>
                    <div className="small">
                      {row.state.opened !== null && w.opened(times.day(row.state.opened.at))}
                      {row.state.closed !== null && `, ${w.closed.toLowerCase()}`}
                    </div>
                  </div>
                </li>
              ))}
            </ul>
          )
        }
      </Loaded>
      <details open={chart !== null}>
        <summary>{w.open}</summary>
        <OpenForm />
      </details>
    </Page>
  )
}

function OpenForm() {
  const navigate = useNavigate()
  const who = useStore(whoStore)
  const chart = useSearchKey('chart')
  const w = words.wounds.investigation
  const [investigation] = useState(() => datedKey('investigation', 'investigation', new Date()))
  const [because, setBecause] = useState<Bodies['investigation-opened']['because'] | ''>(chart === null ? '' : 'alarm')
  const [why, setWhy] = useState('')
  const complete = because !== '' && why.length > 4 && who !== null
  return (
    <EntryForm
      kind="investigation-opened"
      body={
        complete ? { investigation, because, why, lead: who, wounds: [], ...(chart === null ? {} : { chart }) } : null
      }
      action={w.openDo}
      onKept={() => void navigate(paths.investigation(investigation))}
    >
      <SelectField label={w.because} value={because} options={optionsOf(w.reasons)} onChange={setBecause} />
      <TextField label={w.why} long value={why} minLength={5} onChange={setWhy} />
    </EntryForm>
  )
}
