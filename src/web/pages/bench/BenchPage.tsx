import { useMutation, useQuery } from '@tanstack/react-query'
import { useId, useState } from 'react'
import { useSearchParams } from 'react-router'
import { citeSource } from '#units/source.ts'
import type { WorkingDescription } from '#service/api-types.ts'
import { post } from '../../api/client.ts'
import { workingsQuery } from '../../api/queries.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'

export function BenchPage() {
  return (
    <Page title={words.unit.benchTitle} lead={words.unit.benchLead}>
      <Loaded query={useQuery(workingsQuery)}>{(workings) => <Bench workings={workings} />}</Loaded>
    </Page>
  )
}

function Bench({ workings }: { readonly workings: readonly WorkingDescription[] }) {
  const [search, setSearch] = useSearchParams()
  const id = useId()
  const text = search.get('find') ?? ''
  const shown = workings.filter((each) => `${each.id} ${each.title}`.toLowerCase().includes(text.toLowerCase()))
  return (
    <>
      <div className="field" style={{ maxWidth: '24rem' }}>
        <label htmlFor={id}>{words.unit.benchFilter}</label>
        <input
          id={id}
          value={text}
          onChange={(event) =>
            setSearch(event.target.value === '' ? {} : { find: event.target.value }, { replace: true })
          }
        />
      </div>
      <div>
        {shown.map((working) => (
          <details key={working.id}>
            <summary>
              {working.title} <span className="key small soft">{working.id}</span>
            </summary>
            <WorkingShown working={working} />
          </details>
        ))}
      </div>
    </>
  )
}

function WorkingShown({ working }: { readonly working: WorkingDescription }) {
  const id = useId()
  const [input, setInput] = useState(() => JSON.stringify(working.example.input, null, 2))
  const trying = useMutation({
    mutationFn: (): Promise<unknown> => post(`/api/workings/${working.id}`, JSON.parse(input)),
  })
  const w = words.unit
  return (
    <div className="stack" style={{ paddingBottom: '1.5rem' }}>
      <dl className="facts">
        <dt>{words.why.how}</dt>
        <dd>{working.method}</dd>
        <dt>{words.why.valid}</dt>
        <dd>{working.validity}</dd>
        <dt>{words.why.source}</dt>
        <dd>{working.sources.map(citeSource).join('; ')}</dd>
      </dl>
      <form
        className="form"
        aria-label={`${w.benchTry}: ${working.title}`}
        onSubmit={(event) => {
          event.preventDefault()
          trying.mutate()
        }}
      >
        <div className="field">
          <label htmlFor={id}>{w.benchInput}</label>
          <textarea id={id} className="key" rows={8} value={input} onChange={(event) => setInput(event.target.value)} />
        </div>
        <div>
          <button type="submit">{w.benchTry}</button>
        </div>
      </form>
      {trying.error !== null && <ProblemNote error={trying.error} />}
      {trying.data !== undefined && (
        <output>
          <h3>{w.benchOutput}</h3>
          <pre className="small">{JSON.stringify(trying.data, null, 2)}</pre>
        </output>
      )}
    </div>
  )
}
