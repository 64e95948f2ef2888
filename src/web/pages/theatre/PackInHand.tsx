import { type FormEvent, useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { KnownRow } from '#service/api-types.ts'
import { stands } from '#road/finding.ts'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { ChoiceField } from '../../components/Fields.tsx'
import { Findings } from '../../components/Findings.tsx'
import { InDoubt } from '../../components/InDoubt.tsx'
import { useNames } from '../../components/Named.tsx'
import { NotJudged } from '../../components/NotJudged.tsx'
import { Progress } from '../../components/Progress.tsx'
import { useJudgement } from '../../components/use-judgement.ts'
import { useRecalled } from '../../components/use-recalled.ts'
import { WhoNeeded } from '../../components/WhoNeeded.tsx'
import { WithoutNetwork } from '../../offline/WithoutNetwork.tsx'
import { useEntry } from '../../session/use-entry.ts'
import { optionsOf } from '../../words/options.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'

type Opened = Bodies['pack-opened']

interface Props {
  readonly row: KnownRow<'round'>
  readonly of: SubjectId<'case'>
  readonly onDone: () => void
}

/** The rules are asked before the pack is opened; what happened all the same is recorded and alarmed. */
export function PackInHand({ row, of, onDone }: Props) {
  const entry = useEntry('pack-opened')
  const name = useNames('set')(row.state.set)
  const recalled = useRecalled().has(row.subject)
  const [outside, setOutside] = useState<Opened['outsideIndicator']>('changed')
  const [inside, setInside] = useState<Opened['insideIndicator']>('changed')
  const [condition, setCondition] = useState<Opened['condition']>('intact')
  // Nothing wraps what comes out of a bath, so there is no indicator to look at.
  const bare = row.standing === 'bathReady'
  const seen = bare
    ? ({ outsideIndicator: 'missing', insideIndicator: 'missing', condition: 'intact' } as const)
    : { outsideIndicator: outside, insideIndicator: inside, condition }
  const body: Opened = { round: row.subject, case: of, ...seen }
  const judgement = useJudgement(entry.draft(body), true)
  const { data: judged } = judgement
  const doubts = row.doubts ?? []
  const stop = recalled || doubts.length > 0 || (judged?.findings ?? []).some(stands)
  // Said once: while the rules cannot be asked, the row alone tells of it.
  const unsaid = doubts.filter(({ says }) => !(judged?.findings ?? []).some((finding) => finding.says === says))
  const submit = async (event: FormEvent) => {
    event.preventDefault()
    if ((await entry.send(body)) !== null) onDone()
  }
  const w = words.theatre
  return (
    <form className="form" aria-label={w.chosen(name)} onSubmit={(event) => void submit(event)}>
      <p>
        <strong>{w.chosen(name)}</strong>, {standingText('round', row.standing)}{' '}
        <span className="key small">{subjectKey(row.subject)}</span>
      </p>
      {stop && (
        <div className="problem stack" role="alert">
          <h3>
            <strong>{w.stopTitle}</strong>
          </h3>
          <p>{recalled ? words.round.recalled : w.stopSays}</p>
          <InDoubt of={unsaid} />
        </div>
      )}
      <WithoutNetwork kind="pack-opened" judged />
      <NotJudged judgement={judgement} />
      {judged !== undefined && judged.findings.length > 0 && <Findings findings={judged.findings} />}
      {!bare && (
        <>
          <ChoiceField label={w.outside} value={outside} options={optionsOf(w.indicator)} onChange={setOutside} />
          <ChoiceField label={w.inside} value={inside} options={optionsOf(w.indicator)} onChange={setInside} />
          <ChoiceField
            label={w.condition}
            value={condition}
            options={optionsOf(w.conditions)}
            onChange={setCondition}
          />
        </>
      )}
      <WhoNeeded />
      <div className="row">
        {stop && (
          <button type="button" className="main large" onClick={onDone}>
            {w.putAside}
          </button>
        )}
        <button
          type="submit"
          className={stop ? 'large' : 'main large'}
          disabled={entry.by === null || entry.progress.at === 'sending'}
        >
          {stop ? w.recordOpenAnyway : w.recordOpen}
        </button>
      </div>
      <Progress progress={entry.progress} />
    </form>
  )
}
