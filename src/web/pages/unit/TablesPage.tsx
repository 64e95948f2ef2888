import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { TableRow } from '#service/api-types.ts'
import { tablesQuery } from '../../api/table-queries.ts'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'

/** What can be taken out of the program, table by table, for a period or whole. */
export function TablesPage() {
  const w = words.tables
  const { data, error } = useQuery(tablesQuery)
  const [from, setFrom] = useState('')
  const [to, setTo] = useState('')
  return (
    <Page title={w.title} lead={w.lead}>
      <div className="row">
        <label className="field">
          {w.from}
          <input type="date" value={from} onChange={({ target }) => setFrom(target.value)} />
        </label>
        <label className="field">
          {w.to}
          <input type="date" value={to} onChange={({ target }) => setTo(target.value)} />
        </label>
      </div>
      <p className="soft">{w.period}</p>
      {error !== null && <ProblemNote error={error} />}
      <ul className="lines">
        {data?.map((table) => (
          <TableLine key={table.name} table={table} from={from} to={to} />
        ))}
      </ul>
      <section className="stack">
        <h2>{w.fhir}</h2>
        <p className="soft">{w.fhirSays}</p>
        <div className="row">
          {(['bundle', 'ndjson'] as const).map((form) => (
            <a key={form} className="button" href={`/api/fhir?as=${form}`} download>
              {w.fhirForms[form]}
            </a>
          ))}
        </div>
      </section>
    </Page>
  )
}

const forms = ['csv', 'xlsx', 'jsonl'] as const

function TableLine({ table, from, to }: { readonly table: TableRow; readonly from: string; readonly to: string }) {
  const w = words.tables
  const address = (as: string): string => {
    const days = Object.entries({ from, to }).filter(([, day]) => day !== '')
    return `/api/tables/${table.name}?${new URLSearchParams([['as', as], ...days]).toString()}`
  }
  return (
    <li>
      <div className="grow">
        <strong>{table.title}</strong>
        <div className="small soft">
          {table.rowIs}; {w.countsBy(table.periodBy)}
        </div>
        <details className="small">
          <summary>{w.columns(table.columns.length)}</summary>
          <p className="key">{table.columns.map(({ name }) => name).join(', ')}</p>
        </details>
      </div>
      <span className="row">
        {forms.map((form) => (
          <a
            key={form}
            className="button"
            href={address(form)}
            download
            aria-label={w.saveAs(table.title, w.forms[form])}
          >
            {w.forms[form]}
          </a>
        ))}
      </span>
    </li>
  )
}
