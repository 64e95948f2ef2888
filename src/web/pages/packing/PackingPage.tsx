import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { Empty } from '../../components/Empty.tsx'
import { InDoubt } from '../../components/InDoubt.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Named, useNames } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { Since } from '../../components/Since.tsx'
import { useRounds } from '../../components/use-rounds.ts'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'

export function PackingPage() {
  return (
    <Page title={words.wash.packing.title} lead={words.wash.packing.lead}>
      <Loaded query={useRounds()}>{(rounds) => <Packing rounds={rounds} />}</Loaded>
    </Page>
  )
}

function Packing({ rounds }: { readonly rounds: readonly KnownRow<'round'>[] }) {
  const setName = useNames('set')
  const at = (standing: string) =>
    rounds.filter((row) => row.standing === standing).toSorted((a, b) => (a.since < b.since ? -1 : 1))
  const ready = at('inspected')
  const sealed = at('sealed')
  const first = ready[0]
  return (
    <>
      {first === undefined ? (
        <Empty>
          <p>{words.wash.packing.noneReady}</p>
          <Link className="button" to={paths.washRoom}>
            {words.wash.title}
          </Link>
        </Empty>
      ) : (
        <Next
          says={words.wash.packing.next(setName(first.state.set))}
          to={paths.packingOf(first.subject)}
          action={words.wash.packing.pack}
        />
      )}
      {ready.length > 0 && <Sets title={words.wash.packing.ready} rows={ready} pack />}
      {sealed.length > 0 && <Sets title={words.wash.packing.sealed} rows={sealed} />}
      <p>
        <Link className="button" to={paths.lots}>
          {words.lots.toLots}
        </Link>
      </p>
    </>
  )
}

interface SetsProps {
  readonly title: string
  readonly rows: readonly KnownRow<'round'>[]
  readonly pack?: boolean
}

function Sets({ title, rows, pack = false }: SetsProps) {
  const setName = useNames('set')
  return (
    <section className="stack" aria-label={title}>
      <h2>{title}</h2>
      <ul className="lines">
        {rows.map((row) => (
          <li key={row.subject}>
            <div className="grow">
              <Link to={paths.oneRound(row.subject)}>
                <Named id={row.state.set ?? row.subject} />
              </Link>{' '}
              <span className="soft">
                <Since at={row.since} />
              </span>
              <InDoubt of={row.doubts} />
            </div>
            {pack && (
              <Link
                className="button"
                to={paths.packingOf(row.subject)}
                aria-label={`${words.wash.packing.pack}: ${setName(row.state.set)}`}
              >
                {words.wash.packing.pack}
              </Link>
            )}
          </li>
        ))}
      </ul>
    </section>
  )
}
