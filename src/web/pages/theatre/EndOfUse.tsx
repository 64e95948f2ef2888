import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { CaseKnown } from '#road/operating/fold.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { subjectQuery } from '../../api/queries.ts'
import { Countdown } from '../../clocks/Countdown.tsx'
import { useClocks } from '../../clocks/use-clocks.ts'
import { useNames } from '../../components/Named.tsx'
import { Progress } from '../../components/Progress.tsx'
import { Why } from '../../components/Why.tsx'
import { datedKey } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { useEntry } from '../../session/use-entry.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** The packs opened for the case, each with the way to the wash room. */
export function EndOfUse({ of }: { readonly of: CaseKnown }) {
  const w = words.theatre
  return (
    <section className="stack" aria-label={w.packs}>
      <h2>{w.packs}</h2>
      {of.opened.length === 0 ? <p className="soft">{w.noPacks}</p> : <p className="soft">{w.endUseSays}</p>}
      <ul className="lines">
        {of.opened.map((opened) => (
          <OpenedPack key={opened.entry} opened={opened} of={of.id} />
        ))}
      </ul>
    </section>
  )
}

interface PackProps {
  readonly opened: CaseKnown['opened'][number]
  readonly of: SubjectId<'case'>
}

function OpenedPack({ opened, of }: PackProps) {
  const times = useTimes()
  const setName = useNames('set')
  const { data: row } = useQuery(subjectQuery(opened.round))
  const w = words.theatre
  const set = row?.state.set ?? null
  const next = row?.state.next ?? null
  const seen = `${w.outside}: ${w.indicator[opened.outsideIndicator]}. ${w.inside}: ${w.indicator[opened.insideIndicator]}. ${w.conditions[opened.condition]}`
  return (
    <li>
      <div className="grow">
        <Link to={paths.oneRound(opened.round)}>{set === null ? subjectKey(opened.round) : setName(set)}</Link>{' '}
        <span className="soft">
          <Why of={{ title: w.openPack, value: times.moment(opened.at), says: seen, entry: opened.entry }}>
            {times.clock(opened.at)}
          </Why>
        </span>
      </div>
      {next !== null && (
        <>
          <SoakClock of={next} />
          <Link to={paths.oneRound(next)}>{w.ended}</Link>
        </>
      )}
      {next === null && set !== null && <EndUse of={of} set={set} previous={opened.round} name={setName(set)} />}
    </li>
  )
}

/** How long the set may still wait for its soak; gone once it soaks. */
function SoakClock({ of }: { readonly of: SubjectId<'round'> }) {
  const clock = useClocks().find((each) => each.subject === of)
  return clock === undefined ? null : <Countdown clock={clock} />
}

interface EndProps {
  readonly of: SubjectId<'case'>
  readonly set: SubjectId<'set'>
  readonly previous: SubjectId<'round'>
  readonly name: string
}

function EndUse({ of, set, previous, name }: EndProps) {
  const entry = useEntry('use-ended')
  const [round] = useState(() => datedKey('round', subjectKey(set), new Date()))
  return (
    <>
      <button
        type="button"
        className="main"
        disabled={entry.by === null || entry.progress.at === 'sending'}
        onClick={() => void entry.send({ round, set, case: of, previousRound: previous })}
      >
        {words.theatre.endUseOf(name)}
      </button>
      <Progress progress={entry.progress} />
    </>
  )
}
