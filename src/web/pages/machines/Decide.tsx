import { useQueries } from '@tanstack/react-query'
import { useState } from 'react'
import { stands } from '#road/finding.ts'
import type { Bodies } from '#road/kinds.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import type { EntryJudged } from '#service/api-types.ts'
import type { SubjectId } from '#road/subject.ts'
import { post } from '../../api/client.ts'
import { subjectQuery } from '../../api/queries.ts'
import { Caution } from '../../components/Caution.tsx'
import { EntryForm } from '../../components/EntryForm.tsx'
import { Findings } from '../../components/Findings.tsx'
import { useNames } from '../../components/Named.tsx'
import { useEntry } from '../../session/use-entry.ts'
import { words } from '../../words/words.ts'
import { Decided } from './Decided.tsx'
import { EarlyImplant } from './EarlyImplant.tsx'
import { PackDecision } from './PackDecision.tsx'

type Packs = Bodies['load-decided']['packs']
export type Outcome = Packs[number]['outcome']

/** Each pack is decided by itself. What the rules do not allow is struck out, with the reason. */
export function Decide({ load }: { readonly load: LoadKnown }) {
  const w = words.machines.decide
  if (load.rounds.length === 0) {
    return (
      <section className="stack">
        <h2>{w.title}</h2>
        <p className="soft">{w.noPacks}</p>
      </section>
    )
  }
  return (
    <section className="stack" aria-label={w.title}>
      {load.decision !== null && <Decided load={load} />}
      {load.decision === null ? (
        <>
          <h2 className="no-print">{w.title}</h2>
          <DecideForm load={load} />
        </>
      ) : (
        <details className="no-print">
          <summary>{w.again}</summary>
          <DecideForm key={load.decision.entry} load={load} />
        </details>
      )}
      <Caution />
    </section>
  )
}

function DecideForm({ load }: { readonly load: LoadKnown }) {
  const [chosen, setChosen] = useState<Readonly<Record<string, Outcome>>>({})
  const [reasons, setReasons] = useState<Readonly<Record<string, string>>>({})
  const [early, setEarly] = useState<Bodies['load-decided']['earlyImplant']>()
  const against = useReleaseFindings(load, early)
  const nameOf = usePackNames(load)
  const w = words.machines.decide
  const packs: Packs = load.rounds.flatMap((round) => {
    const outcome = chosen[round]
    const why = reasons[round]
    if (outcome === undefined) return []
    return [{ round, outcome, ...(why === undefined || why === '' ? {} : { why }) }]
  })
  const [first, ...others] = packs
  const struck = load.rounds.filter((round) => (against.get(round) ?? []).some(stands))
  return (
    <EntryForm
      kind="load-decided"
      body={
        first === undefined
          ? null
          : { load: load.id, packs: [first, ...others], ...(early === undefined ? {} : { earlyImplant: early }) }
      }
      action={w.action}
      judged
    >
      <p className="soft">{w.says}</p>
      <ul className="lines">
        {load.rounds.map((round) => (
          <PackDecision
            key={round}
            name={nameOf(round)}
            round={round}
            mayRelease={!struck.includes(round)}
            outcome={chosen[round] ?? null}
            why={reasons[round] ?? ''}
            onOutcome={(outcome) => setChosen((before) => ({ ...before, [round]: outcome }))}
            onWhy={(why) => setReasons((before) => ({ ...before, [round]: why }))}
          />
        ))}
      </ul>
      {/* Once one of them is chosen all the same, the rules answer below. */}
      {struck.length > 0 && !struck.some((round) => chosen[round] === 'released') && (
        <section className="stack" aria-label={w.because}>
          <h3>{w.because}</h3>
          <Findings findings={sharedFindings(struck, against)} />
        </section>
      )}
      <EarlyImplant onChange={setEarly} />
    </EntryForm>
  )
}

type FindingsByRound = ReadonlyMap<SubjectId<'round'>, EntryJudged['findings']>

function sharedFindings(rounds: readonly SubjectId<'round'>[], against: FindingsByRound): EntryJudged['findings'] {
  const all = rounds.flatMap((round) => (against.get(round) ?? []).filter(stands))
  return [...new Map(all.map((finding) => [`${finding.rule} ${finding.says}`, finding])).values()]
}

/** What the rules would say of releasing each pack, asked one by one. */
function useReleaseFindings(load: LoadKnown, earlyImplant: Bodies['load-decided']['earlyImplant']): FindingsByRound {
  const entry = useEntry('load-decided')
  const asked = load.rounds.map((round) => ({
    round,
    draft: entry.draft({
      load: load.id,
      packs: [{ round, outcome: 'released' }],
      ...(earlyImplant === undefined ? {} : { earlyImplant }),
    }),
  }))
  const answers = useQueries({
    queries: asked.map(({ round, draft }) => ({
      queryKey: ['judge', 'release', round, earlyImplant, draft?.by],
      queryFn: () => post<EntryJudged>('/api/entries/judge', draft),
      enabled: draft !== null,
      retry: false,
    })),
  })
  return new Map(asked.map(({ round }, index) => [round, answers[index]?.data?.findings ?? []]))
}

function usePackNames(load: LoadKnown): (round: SubjectId<'round'>) => string {
  const setName = useNames('set')
  const rows = useQueries({ queries: load.rounds.map((round) => subjectQuery(round)) })
  return (round) => setName(rows[load.rounds.indexOf(round)]?.data?.state.set) || round
}
