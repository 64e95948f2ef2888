import { useState } from 'react'
import { useNavigate } from 'react-router'
import { Instant } from '#road/instant.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField, Tick } from '../../components/Fields.tsx'
import { useAskedRecall, useAskedSince } from '../../components/use-asked-recall.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { recallOf } from './recall-of.ts'

export function OpenRecall({ load }: { readonly load: SubjectId<'load'> }) {
  const navigate = useNavigate()
  const asked = useAskedRecall()
  const [why, setWhy] = useState(asked ?? '')
  const [defectProven, setDefect] = useState(false)
  const times = useTimes()
  const askedSince = useAskedSince()
  const [from, setFrom] = useState(askedSince === null ? '' : times.toInput(askedSince))
  const since = Instant.safeParse(times.fromInput(from)).data
  const recall = recallOf(load)
  const w = words.machines
  return (
    <details className="no-print" open={asked !== null}>
      <summary>{w.recallOpen}</summary>
      <EntryForm
        kind="recall-opened"
        body={why.length < 5 ? null : { recall, load, why, defectProven, ...(since === undefined ? {} : { since }) }}
        action={w.recallDo}
        onKept={() => void navigate(paths.recall(recall))}
      >
        <p className="soft">{w.recallSays}</p>
        <TextField label={w.recallWhy} value={why} minLength={5} long onChange={setWhy} />
        <Tick checked={defectProven} onChange={setDefect}>
          {w.defectProven}
        </Tick>
        <TextField
          label={w.recallSince}
          hint={w.recallSinceHint}
          type="datetime-local"
          optional
          value={from}
          onChange={setFrom}
        />
      </EntryForm>
    </details>
  )
}
