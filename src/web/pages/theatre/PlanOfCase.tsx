import { useState } from 'react'
import type { CaseKnown } from '#road/operating/fold.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { forPlanOf, planAnswersOf, PlanFields } from './ForPlan.tsx'

type Booked = NonNullable<CaseKnown['booked']>

interface Props {
  readonly of: CaseKnown
  readonly booked: Booked
}

/** What the list of the day goes by, corrected in the booking itself. */
export function PlanOfCase({ of, booked }: Props) {
  const w = words.theatre.forPlan
  return (
    <details>
      <summary>{w.title}</summary>
      <ChangeForm key={booked.entry} of={of} booked={booked} />
    </details>
  )
}

function ChangeForm({ of, booked }: Props) {
  const times = useTimes()
  const { at, entry, by: _by, forPlan: before, ...rest } = booked
  const [answers, setAnswers] = useState(() => planAnswersOf(before, times))
  const forPlan = forPlanOf(answers, times)
  const w = words.theatre.forPlan
  return (
    <EntryForm
      kind="case-booked"
      body={{ case: of.id, ...rest, ...(forPlan === undefined ? {} : { forPlan }) }}
      action={w.change}
      corrects={entry}
      at={at}
    >
      <PlanFields value={answers} onChange={setAnswers} />
    </EntryForm>
  )
}
