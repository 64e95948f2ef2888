import { useState } from 'react'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import type { RecallAnswer } from '#service/api-types.ts'
import { Tick } from '../../components/Fields.tsx'
import { useNames } from '../../components/Named.tsx'
import { words } from '../../words/words.ts'
import { AccountMany } from './AccountMany.tsx'
import { PackLine } from './PackLine.tsx'
import type { RecallPack } from './RecallPacks.tsx'

type RoundId = SubjectId<'round'>

interface Props {
  readonly title: string
  readonly packs: readonly RecallPack[]
  readonly answer: RecallAnswer
}

/** The packs of one place: each accounted for by itself, or those that are ticked together. */
export function PlacePacks({ title, packs, answer }: Props) {
  const [ticked, setTicked] = useState<ReadonlySet<RoundId>>(new Set())
  const [begun, setBegun] = useState(false)
  const setName = useNames('set')
  const w = words.trace.recall
  // Only a pack of an open recall that nobody accounted for yet may be ticked.
  const open = answer.standing === 'closed' ? [] : packs.filter((pack) => pack.outcome === null)
  const chosen = open.filter((pack) => ticked.has(pack.round))
  const choose = (rounds: readonly RoundId[], on: boolean) => {
    setBegun(true)
    setTicked((before) => new Set(on ? [...before, ...rounds] : [...before].filter((each) => !rounds.includes(each))))
  }
  const nameOf = (round: RoundId) =>
    setName(packs.find((pack) => pack.round === round)?.set ?? null) || subjectKey(round)
  return (
    <section className="stack" aria-label={title}>
      <h3>
        {title} ({packs.length})
      </h3>
      {open.length > 1 && (
        <div className="no-print">
          <Tick
            checked={chosen.length === open.length}
            onChange={(on) =>
              choose(
                open.map((pack) => pack.round),
                on,
              )
            }
          >
            {w.chooseAll(open.length)}
          </Tick>
        </div>
      )}
      {begun && (
        <AccountMany recall={answer.recall.id} packs={chosen} nameOf={nameOf} onKept={(kept) => choose(kept, false)} />
      )}
      <ul className="lines">
        {packs.map((pack) => (
          <PackLine
            key={`${pack.round} ${pack.load}`}
            pack={pack}
            answer={answer}
            tick={
              open.length > 1 && open.includes(pack)
                ? { on: ticked.has(pack.round), set: (on) => choose([pack.round], on) }
                : undefined
            }
          />
        ))}
      </ul>
    </section>
  )
}
