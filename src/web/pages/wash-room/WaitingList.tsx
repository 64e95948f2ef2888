import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { Countdown } from '../../clocks/Countdown.tsx'
import { useClocks } from '../../clocks/use-clocks.ts'
import { Named, useNames } from '../../components/Named.tsx'
import { Since } from '../../components/Since.tsx'
import { Why } from '../../components/Why.tsx'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { SoakWait } from './SoakWait.tsx'

type Group = 'used' | 'soaking' | 'sentBack' | 'washed' | 'back'

const actions: Record<Group, string> = {
  used: words.wash.doSoak,
  soaking: words.wash.doWash,
  sentBack: words.wash.doWash,
  washed: words.wash.doInspect,
  back: words.wash.doBack,
}

interface Props {
  readonly standing: Group
  readonly rows: readonly KnownRow<'round'>[]
}

/** Sets at one place of the wash room, the one that has waited longest first. */
export function WaitingList({ standing, rows }: Props) {
  const setName = useNames('set')
  const clocks = useClocks()
  if (rows.length === 0 && standing !== 'used') return null
  const title = words.wash[standing]
  return (
    <section className="stack" aria-label={title}>
      <h2>{title}</h2>
      {standing === 'back' && <p className="soft">{words.wash.backSays}</p>}
      {rows.length === 0 && <p className="soft">{words.wash.none}</p>}
      <ul className="lines">
        {rows.map((row) => (
          <li key={row.subject}>
            <div className="grow">
              <Link to={paths.oneRound(row.subject)}>
                {row.state.set === null ? row.subject : <Named id={row.state.set} />}
              </Link>
              <Waited standing={standing} row={row} />
            </div>
            {!waitsForSoak(standing, row) &&
              clocks
                .filter((clock) => clock.subject === row.subject)
                .slice(0, 1)
                .map((clock) => <Countdown key={clock.key} clock={clock} />)}
            <Link
              className="button"
              to={paths.washRoomFor(row.subject)}
              aria-label={`${actions[standing]}: ${setName(row.state.set)}`}
            >
              {actions[standing]}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  )
}

interface WaitedProps {
  readonly standing: Group
  readonly row: KnownRow<'round'>
}

function waitsForSoak(standing: Group, row: KnownRow<'round'>): boolean {
  return standing === 'used' && row.state.began?.because === 'use'
}

/** How long it waits, once: the wait for the soak large, any other in a line. */
function Waited({ standing, row }: WaitedProps) {
  const { began } = row.state
  if (began !== null && waitsForSoak(standing, row)) return <SoakWait since={began.at} entry={began.entry} />
  return (
    <>
      <br />
      <span className="soft">
        {standing === 'back' && `${standingText('round', row.standing)}, `}
        <Why of={{ title: words.round.waiting, entry: began?.entry }}>
          <Since at={row.since} />
        </Why>
      </span>
    </>
  )
}
