import { Link } from 'react-router'
import { subjectKey } from '#road/subject.ts'
import type { RecallAnswer } from '#service/api-types.ts'
import { useNames } from '../../components/Named.tsx'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { AccountPack } from './AccountPack.tsx'
import type { RecallPack } from './RecallPacks.tsx'

interface LineProps {
  readonly pack: RecallPack
  readonly answer: RecallAnswer
  /** Set while it may be chosen to be accounted for together with others. */
  readonly tick: { readonly on: boolean; readonly set: (on: boolean) => void } | undefined
}

/** One pack of the recall: where it is, what is to be done, and what was. */
export function PackLine({ pack, answer, tick }: LineProps) {
  const setName = useNames('set')
  const name = setName(pack.set) || subjectKey(pack.round)
  return (
    <li id={subjectKey(pack.round)}>
      {tick !== undefined && (
        <label className="tick-box no-print">
          <input type="checkbox" checked={tick.on} onChange={(event) => tick.set(event.target.checked)} />
          <span className="unseen">{words.trace.recall.choose(name, subjectKey(pack.round))}</span>
        </label>
      )}
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
