import { useState } from 'react'
import type { RecallAnswer } from '#service/api-types.ts'
import { Caution } from '../../components/Caution.tsx'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { Findings } from '../../components/Findings.tsx'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** Closed only with a cause and what was done, and only when nothing stands against it. */
export function CloseRecall({ answer }: { readonly answer: RecallAnswer }) {
  const times = useTimes()
  const [cause, setCause] = useState('')
  const [action, setAction] = useState('')
  const w = words.trace.recall
  const { closed, id } = answer.recall
  if (closed !== null) {
    return (
      <section className="stack">
        <h2>
          <Why of={{ title: w.closed, value: times.moment(closed.at), entry: closed.entry }}>{w.closed}</Why>{' '}
          {times.moment(closed.at)}
        </h2>
        <dl className="facts">
          <dt>{w.cause}</dt>
          <dd>{closed.cause}</dd>
          <dt>{w.action}</dt>
          <dd>{closed.action}</dd>
        </dl>
      </section>
    )
  }
  return (
    <section className="stack" id="close" aria-label={w.close}>
      <h2>{w.close}</h2>
      {answer.findings.length === 0 ? (
        <p>{w.nothingAgainst}</p>
      ) : (
        <>
          <p>
            <strong>{w.against}</strong>
          </p>
          <Findings findings={answer.findings} label={w.against} />
        </>
      )}
      <EntryForm
        kind="recall-closed"
        body={cause.length < 5 || action.length < 5 ? null : { recall: id, cause, action }}
        action={w.closeDo}
        judged
      >
        <TextField label={w.cause} long minLength={5} value={cause} onChange={setCause} />
        <TextField label={w.action} long minLength={5} value={action} onChange={setAction} />
      </EntryForm>
      <Caution />
    </section>
  )
}
