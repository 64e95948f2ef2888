import { Link } from 'react-router'
import { subjectKey } from '#road/subject.ts'
import type { RecallAnswer } from '#service/api-types.ts'
import { useNames } from '../../components/Named.tsx'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { AccountPack } from './AccountPack.tsx'

export type RecallPack = RecallAnswer['packs'][number]

type Place = keyof typeof words.trace.recall.places

const order: readonly Place[] = ['shelf', 'used', 'other']

/** Every pack of the recall by where it is now; what is not accounted for stands first. */
export function RecallPacks({ answer }: { readonly answer: RecallAnswer }) {
  const w = words.trace.recall
  const counted = answer.packs.filter((pack) => pack.duty !== 'cleared')
  const done = counted.filter((pack) => pack.outcome !== null).length
  return (
    <section className="stack" aria-label={w.packs}>
      <h2>{w.packs}</h2>
      <output>{w.accounted(done, counted.length)}</output>
      {order.map((place) => {
        const packs = answer.packs
          .filter((pack) => placeOf(pack) === place)
          .toSorted((a, b) => Number(a.outcome !== null) - Number(b.outcome !== null))
        if (packs.length === 0) return null
        return (
          <section key={place} className="stack" aria-label={w.places[place]}>
            <h3>
              {w.places[place]} ({packs.length})
            </h3>
            <ul className="lines">
              {packs.map((pack) => (
                <PackLine key={`${pack.round} ${pack.load}`} pack={pack} answer={answer} />
              ))}
            </ul>
          </section>
        )
      })}
    </section>
  )
}

function placeOf(pack: RecallPack): Place {
  if (pack.case !== null) return 'used'
  return ['onShelf', 'released', 'quarantined', 'inLoad', 'sealed'].includes(pack.place) ? 'shelf' : 'other'
}

interface LineProps {
  readonly pack: RecallPack
  readonly answer: RecallAnswer
}

function PackLine({ pack, answer }: LineProps) {
  const setName = useNames('set')
  const name = setName(pack.set) || subjectKey(pack.round)
  return (
    <li id={subjectKey(pack.round)}>
      <div className="grow">
        <Link to={paths.oneRound(pack.round)}>{name}</Link>{' '}
        <span className="key small soft">{subjectKey(pack.round)}</span>
        <br />
        {pack.case === null ? (
          <>
            {standingText('round', pack.place)}
            {pack.shelf !== null && `, ${pack.shelf}`}
          </>
        ) : (
          <>
            {words.trace.recall.usedIn}{' '}
            <Link to={paths.oneCase(pack.case)}>{`${words.trace.recall.case} ${subjectKey(pack.case)}`}</Link>
          </>
        )}
      </div>
      <span className={pack.duty === 'cleared' ? 'tag' : 'tag stop'}>{words.trace.duties[pack.duty]}</span>
      <AccountPack pack={pack} recall={answer.recall.id} name={name} closed={answer.standing === 'closed'} />
    </li>
  )
}
