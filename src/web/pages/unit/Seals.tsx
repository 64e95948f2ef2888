import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { SealCheckAnswer, ShownSeal } from '#service/api-types.ts'
import { post } from '../../api/client.ts'
import { sealsQuery } from '../../api/keeping-queries.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** The last seal of the record: makes one, shows it for paper, and holds the record against it. */
export function Seals() {
  const w = words.keeping
  const client = useQueryClient()
  const { data, error } = useQuery(sealsQuery)
  const make = useMutation({
    mutationFn: () => post<ShownSeal>('/api/seals', {}),
    onSuccess: () => client.invalidateQueries({ queryKey: sealsQuery.queryKey }),
  })
  const last = data?.seals[0]
  return (
    <section className="stack" aria-label={w.seals}>
      <div className="row apart">
        <h2>{w.seals}</h2>
        <button type="button" disabled={make.isPending} onClick={() => make.mutate()}>
          {w.sealNow}
        </button>
      </div>
      <p className="soft">{w.sealsLead}</p>
      {error !== null && <ProblemNote error={error} />}
      {make.error !== null && <ProblemNote error={make.error} />}
      {data !== undefined && data.failure !== null && (
        <p className="problem" role="alert">
          <strong>{w.sealFailed}. </strong>
          {data.failure}
        </p>
      )}
      {data !== undefined && last === undefined && <p>{w.noSeal}</p>}
      {last !== undefined && <LastSeal key={last.seal.signature} shown={last} />}
    </section>
  )
}

function LastSeal({ shown: { seal } }: { readonly shown: ShownSeal }) {
  const w = words.keeping
  const times = useTimes()
  const check = useMutation({ mutationFn: () => post<SealCheckAnswer>('/api/seals/check', seal) })
  return (
    <>
      <dl className="facts">
        <dt>{w.sealedAt}</dt>
        <dd>{times.moment(seal.sealedAt)}</dd>
        <dt>{w.entries}</dt>
        <dd>{w.upTo(seal.seq)}</dd>
        <dt>{w.publicKey}</dt>
        <dd className="key small">{seal.publicKey}</dd>
      </dl>
      <div className="row">
        <Link className="button" to={paths.seal}>
          {w.paper}
        </Link>
        <button type="button" disabled={check.isPending} onClick={() => check.mutate()}>
          {w.check}
        </button>
      </div>
      {check.isPending && <p className="soft">{w.checking}</p>}
      {check.error !== null && <ProblemNote error={check.error} />}
      {check.data !== undefined && <Checked check={check.data} />}
    </>
  )
}

function Checked({ check: { outcome, says } }: { readonly check: SealCheckAnswer }) {
  const w = words.keeping
  if (outcome === 'holds') return <output>{w.holds}</output>
  return (
    <p className="problem" role="alert">
      <strong>{w[outcome]}: </strong>
      {says}
    </p>
  )
}
