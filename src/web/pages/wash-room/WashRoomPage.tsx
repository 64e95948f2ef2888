import { useQuery } from '@tanstack/react-query'
import { Link, useSearchParams } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { takenBackFromBath } from '#road/round.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery, subjectQuery } from '../../api/queries.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { useNames } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { IfOnRecord } from '../../components/NotOnRecord.tsx'
import { Page } from '../../components/Page.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { useSearchKey } from '../../components/use-key.ts'
import { useRounds } from '../../components/use-rounds.ts'
import { paths } from '../../paths.ts'
import { useNow } from '../../session/use-now.ts'
import { spanText, standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { Bench } from './Bench.tsx'
import { CleaningTrends } from './CleaningTrends.tsx'
import { StartRounds } from './StartRounds.tsx'
import { WaitingList } from './WaitingList.tsx'

const groups = ['used', 'soaking', 'sentBack', 'washed'] as const
const begins = ['rejected', 'damaged']

export function WashRoomPage() {
  return (
    <Page title={words.wash.title} lead={words.wash.lead}>
      <Loaded query={useRounds()}>{(rounds) => <WashRoom rounds={rounds} />}</Loaded>
    </Page>
  )
}

function WashRoom({ rounds }: { readonly rounds: readonly KnownRow<'round'>[] }) {
  const chosen = useSearchKey('round')
  const [, setSearch] = useSearchParams()
  const { data: sets = [] } = useQuery(knownQuery('set', ['neverUsed']))
  const row = rounds.find((each) => each.subject === chosen)
  const open = (standing: string) =>
    rounds.filter((each) => each.standing === standing).toSorted((a, b) => (a.since < b.since ? -1 : 1))
  return (
    <>
      {chosen !== null && row === undefined && <NotHere id={chosen} />}
      {row === undefined ? (
        <NextHere rounds={rounds} />
      ) : (
        <Bench key={`${row.subject} ${row.standing}`} row={row} rounds={rounds} onDone={() => setSearch({})} />
      )}
      {groups.map((standing) => (
        <WaitingList key={standing} standing={standing} rows={open(standing)} />
      ))}
      <WaitingList
        standing="back"
        rows={[...begins.flatMap(open), ...open('quarantined').filter((row) => takenBackFromBath(row.state))]}
      />
      {sets.length > 0 && <StartRounds sets={sets} />}
      <CleaningTrends />
      <p className="row">
        <Link className="button" to={paths.water}>
          {words.water.open}
        </Link>
        <Link className="button" to={paths.safety}>
          {words.safety.open}
        </Link>
      </p>
    </>
  )
}

/** Somebody was sent here for a set that is elsewhere on its way. */
function NotHere({ id }: { readonly id: SubjectId<'round'> }) {
  const { data: row } = useQuery(subjectQuery(id))
  return (
    <IfOnRecord of={id}>
      {row !== undefined && (
        <p className="told">
          {words.wash.notHere} <SubjectLink id={id} />, {standingText('round', row.standing)}
        </p>
      )}
    </IfOnRecord>
  )
}

function NextHere({ rounds }: { readonly rounds: readonly KnownRow<'round'>[] }) {
  const setName = useNames('set')
  const now = useNow()
  const oldest = (...standings: string[]) =>
    rounds.filter((row) => standings.includes(row.standing)).toSorted((a, b) => (a.since < b.since ? -1 : 1))[0]
  const used = oldest('used')
  const soaking = oldest('soaking', 'sentBack')
  const washed = oldest('washed')
  const row = used ?? soaking ?? washed
  if (row === undefined) {
    const ready = oldest('inspected')
    return ready === undefined ? (
      <Next says={words.nothingNext} />
    ) : (
      <Next says={words.wash.nextPack(setName(ready.state.set))} to={paths.packing} action={words.wash.doPack} />
    )
  }
  const name = setName(row.state.set)
  if (row === used) {
    const wait = spanText(now - Date.parse(row.state.began?.at ?? row.since))
    // A new set has never been in use: nothing dries on it.
    const says = row.state.began?.because === 'use' ? words.wash.nextSoak(name, wait) : words.wash.nextSoakUnused(name)
    return <Next says={says} to={paths.washRoomFor(row.subject)} action={words.wash.doSoak} />
  }
  return row === soaking ? (
    <Next says={words.wash.nextWash(name)} to={paths.washRoomFor(row.subject)} action={words.wash.doWash} />
  ) : (
    <Next says={words.wash.nextInspect(name)} to={paths.washRoomFor(row.subject)} action={words.wash.doInspect} />
  )
}
