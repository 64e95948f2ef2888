import { useQuery } from '@tanstack/react-query'
import { citeSource, type Source } from '#units/source.ts'
import { workingsQuery } from '../api/queries.ts'
import { words } from '../words/words.ts'
import { EntryFacts } from './EntryFacts.tsx'
import type { Reason } from './Why.tsx'

export function WhyDrawer({ of }: { readonly of: Reason }) {
  return (
    <div className="stack">
      <dl className="facts">
        <Fact term={words.why.value} text={of.value} />
        <Fact term={words.why.says} text={of.says} />
        <Fact term={words.why.inputs} text={of.inputs} />
        <Fact term={words.why.limit} text={of.limit} />
        <Fact term={words.why.rule} text={of.rule} />
        <Fact term={words.why.source} text={of.source === undefined ? undefined : cited(of.source)} />
      </dl>
      {of.working !== undefined && <WorkingFacts id={of.working} />}
      {of.entry !== undefined && <EntryFacts id={of.entry} />}
    </div>
  )
}

function Fact({ term, text }: { readonly term: string; readonly text: string | undefined }) {
  if (text === undefined) return null
  return (
    <>
      <dt>{term}</dt>
      <dd>{text}</dd>
    </>
  )
}

function WorkingFacts({ id }: { readonly id: string }) {
  const { data } = useQuery(workingsQuery)
  const working = data?.find((each) => each.id === id)
  if (working === undefined) return null
  return (
    <section className="stack">
      <h3>{working.title}</h3>
      <dl className="facts">
        <Fact term={words.why.how} text={working.method} />
        <Fact term={words.why.valid} text={working.validity} />
        <Fact term={words.why.source} text={working.sources.map(citeSource).join('; ')} />
      </dl>
    </section>
  )
}

function cited(source: Source | string): string {
  return typeof source === 'string' ? source : citeSource(source)
}
