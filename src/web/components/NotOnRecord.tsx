import type { ReactNode } from 'react'
import { Link } from 'react-router'
import { parseSubject, subjectKey, subjectKind, type SubjectId, type SubjectKind } from '#road/subject.ts'
import { useQuery } from '@tanstack/react-query'
import { ProblemError } from '../api/client.ts'
import { subjectQuery } from '../api/queries.ts'
import { pathOf, paths } from '../paths.ts'
import { words } from '../words/words.ts'
import { SubjectSearch } from './SubjectSearch.tsx'

/** Whether the answer to a question about one subject is that there is none: nothing has that key, or nothing can have it. */
export function isMissing(error: Error | null): boolean {
  return error instanceof ProblemError && [404, 422].includes(error.problem.status)
}

/** Says that nothing of a name is on record, and where to look for what was meant. */
export function NotOnRecord({ of }: { readonly of: SubjectId }) {
  const w = words.missing
  const kind = subjectKind(of)
  const key = subjectKey(of)
  return (
    <section className="stack" aria-label={w.title(words.standings.kinds[kind])}>
      <div className="problem stack" role="alert">
        <p>{w.asked(words.standings.kinds[kind].toLowerCase(), shortened(key))}</p>
        <p>{parseSubject(of) === undefined ? w.noKey : w.why}</p>
      </div>
      <SubjectSearch label={w.search} start={shortened(key)} to={pathOf} />
      <p className="row">
        <Link className="button" to={listOf(kind)}>
          {w.lists[kind]}
        </Link>
        <Link className="button" to={paths.trace}>
          {w.trace}
        </Link>
      </p>
    </section>
  )
}

interface Props {
  /** Null when nothing was named. */
  readonly of: SubjectId | null
  readonly children: ReactNode
}

/** What is shown unless the record is known to have nothing of that name: a form works without an answer too. */
export function IfOnRecord({ of, children }: Props) {
  const { error } = useQuery({ ...subjectQuery(of ?? 'unit:none'), enabled: of !== null })
  return of !== null && isMissing(error) ? <NotOnRecord of={of} /> : children
}

const mostShown = 64

/** Addresses can be of any length. */
function shortened(key: string): string {
  return key.length > mostShown ? `${key.slice(0, mostShown)}…` : key
}

/** Where all of a kind are listed, or the nearest place to that. */
function listOf(kind: SubjectKind): string {
  switch (kind) {
    case 'round':
      return paths.round
    case 'wash':
      return paths.washRoom
    case 'outlet':
      return paths.water
    case 'machine':
    case 'load':
    case 'log':
      return paths.machines
    case 'bath':
    case 'immersion':
      return paths.baths
    case 'lot':
      return paths.lots
    case 'case':
    case 'list':
      return paths.theatre
    case 'wound':
      return paths.wounds
    case 'chart':
      return paths.woundCharts
    case 'investigation':
    case 'sample':
      return paths.investigations
    case 'recall':
      return paths.trace
    case 'unit':
    case 'policy':
    case 'person':
    case 'device':
    case 'item':
    case 'set':
      return paths.unit
  }
}
