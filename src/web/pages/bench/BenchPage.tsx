import { useMutation, useQuery } from '@tanstack/react-query'
import { useId, useMemo, useState } from 'react'
import { useSearchParams } from 'react-router'
import { citeSource } from '#units/source.ts'
import type { WorkingDescription } from '#service/api-types.ts'
import { post } from '../../api/client.ts'
import { workingsQuery } from '../../api/queries.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { Page } from '../../components/Page.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'
import { OutputShown } from './OutputShown.tsx'
import { shapeOf } from './schema-shape.ts'
import { GroupFields, WholeField } from './ShapeForm.tsx'

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
          <WorkingLine key={working.id} working={working} />
        ))}
      </div>
    </>
  )
}

/** Shown only once it is opened: there are more than a hundred. */
function WorkingLine({ working }: { readonly working: WorkingDescription }) {
  const [opened, setOpened] = useState(false)
  return (
    <details onToggle={(event) => setOpened((before) => before || event.currentTarget.open)}>
      <summary>
        {working.title} <span className="key small soft">{working.id}</span>
      </summary>
      {opened && <WorkingShown working={working} />}
    </details>
  )
}

function WorkingShown({ working }: { readonly working: WorkingDescription }) {
  const [values, setValues] = useState(working.example.input)
  const shape = useMemo(() => shapeOf(working.input, working.example.input), [working])
  const trying = useMutation({
    mutationFn: (input: unknown): Promise<unknown> => post(`/api/workings/${working.id}`, input),
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
          trying.mutate(values)
        }}
      >
        {shape.ask === 'group' ? (
          <GroupFields fields={shape.fields} value={values} onChange={setValues} />
        ) : (
          <WholeField shape={shape} value={values} onChange={setValues} />
        )}
        <div>
          <button type="submit" className="main" disabled={trying.isPending}>
            {w.benchTry}
          </button>
        </div>
      </form>
      {trying.error !== null && <ProblemNote error={trying.error} />}
      {trying.data !== undefined && (
        <output className="stack">
          <h2>{w.benchOutput}</h2>
          <OutputShown value={trying.data} />
          <details>
            <summary>{w.benchWhole}</summary>
            <pre className="small">{JSON.stringify(trying.data, null, 2)}</pre>
          </details>
        </output>
      )}
    </div>
  )
}
