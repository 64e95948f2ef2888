import type { KnownRow } from '#service/api-types.ts'
import { type RoundStanding, roundStandings } from '#road/round.ts'
import { stationOf } from '../../charts/ring-layout.ts'
import { type Bead, Ring } from '../../charts/Ring.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { useNames } from '../../components/Named.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { useRounds } from '../../components/use-rounds.ts'
import { useNow } from '../../session/use-now.ts'
import { spanText, standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { AttentionList } from './AttentionList.tsx'
import { BeadTable } from './BeadTable.tsx'
import { Guide } from './Guide.tsx'
import { Legend } from './Legend.tsx'
import { StationList } from './StationList.tsx'
import { useAttention, useRoundTrouble } from './use-attention.ts'

export function RoundPage() {
  return (
    <Page title={words.round.title} lead={words.round.lead}>
      <Loaded query={useRounds()}>{(rounds) => <Home rounds={rounds} />}</Loaded>
    </Page>
  )
}

function Home({ rounds }: { readonly rounds: readonly KnownRow<'round'>[] }) {
  const attention = useAttention(rounds)
  const beads = useBeads(rounds)
  const worst = attention[0]
  return (
    <>
      <Guide />
      {worst === undefined ? (
        rounds.length > 0 && <Next says={words.round.nothingWrong} />
      ) : (
        <Next says={`${worst.name}: ${worst.says}`} to={worst.to} action={words.round.look} />
      )}
      {rounds.length > 0 && (
        <div className="ring-and-list">
          <div className="not-on-phone">
            <Ring beads={beads} />
            <Legend />
          </div>
          <AttentionList attention={attention} />
          <StationList beads={beads} />
        </div>
      )}
      {rounds.length > 0 && <BeadTable beads={beads} />}
    </>
  )
}

function useBeads(rounds: readonly KnownRow<'round'>[]): readonly Bead[] {
  const now = useNow()
  const trouble = useRoundTrouble()
  const setName = useNames('set')
  return rounds.map((row) => {
    const standing = roundStandings.find((each) => each === row.standing) ?? ('over' satisfies RoundStanding)
    const waited = now - Date.parse(row.since)
    const wrong = trouble(row)
    return {
      round: row.subject,
      name: setName(row.state.set),
      says: wrong?.says ?? standingText('round', row.standing),
      wait: spanText(waited),
      station: stationOf[standing],
      hours: waited / 3_600_000,
      mark: wrong?.mark ?? 'on',
    }
  })
}
