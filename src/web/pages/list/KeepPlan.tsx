import { useState } from 'react'
import type { PlanOfDay } from '#service/api-types.ts'
import type { Bodies } from '#road/kinds.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { instantAt } from './instant-at.ts'
import { lengthsOf, type PlanName, type ShownPlan } from './plan-view.ts'

/** Keeps a plan in the record: the decision, with what it breaks and what it rests on. */
export function KeepPlan({ day, plans }: { readonly day: PlanOfDay; readonly plans: readonly ShownPlan[] }) {
  const times = useTimes()
  const [name, setName] = useState<PlanName | ''>('')
  const [why, setWhy] = useState('')
  const w = words.list.keep
  const choices = plans.filter((plan) => plan.name !== 'kept')
  const chosen = choices.find((plan) => plan.name === name) ?? choices[0]
  if (chosen === undefined) return null
  const never = chosen.never.length > 0
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">{day.kept?.plan ? w.kept(times.moment(day.kept.plan.at)) : w.never}</p>
      <EntryForm
        kind="list-planned"
        judged
        body={never ? null : bodyOf(day, chosen, why)}
        lacking={never ? w.lacking : undefined}
        action={w.do}
      >
        <SelectField
          label={w.which}
          value={chosen.name}
          options={choices.map((plan) => ({ value: plan.name, label: words.list.compare.names[plan.name] }))}
          onChange={setName}
        />
        <TextField label={w.because} optional minLength={3} value={why} onChange={setWhy} />
      </EntryForm>
    </section>
  )
}

const because = {
  best: 'planned',
  fixed: 'changedByHand',
  own: 'changedByHand',
  replanned: 'replanned',
  kept: 'planned',
} as const

function bodyOf(day: PlanOfDay, plan: ShownPlan, why: string): Bodies['list-planned'] | null {
  const lengths = lengthsOf(day)
  if (plan.objective === null) return null
  const proven = plan.name === 'best' && day.plan?.status === 'optimal'
  const rows = day.cases.flatMap((one) => {
    const at = plan.cases[one.id]
    return at === undefined
      ? []
      : [{ case: one.case, theatre: at.theatre, start: at.start, end: at.start + (lengths.get(one.id) ?? 0) }]
  })
  const begun = day.begun.map(({ case: one, theatre, start, end }) => ({ case: one, theatre, start, end }))
  return {
    list: `list:${day.day}`,
    day: day.day,
    because: because[plan.name],
    ...(why.length < 3 ? {} : { why }),
    status: plan.name === 'own' ? 'byHand' : proven ? 'optimal' : 'feasible',
    objective: plan.objective,
    bound: day.plan?.bound ?? null,
    cases: [...begun, ...rows]
      .toSorted((a, b) => a.start - b.start)
      .map(({ case: one, theatre, start, end }) => ({
        case: one,
        theatre,
        startAt: instantAt(day.startsAt, start),
        endsAt: instantAt(day.startsAt, end),
      })),
    breaks: plan.broken.map((each) => each.slice(0, 300)).slice(0, 200),
    notes: [
      ...new Set(day.findings.filter(({ weight }) => weight === 'notEvaluable').map(({ says }) => says.slice(0, 500))),
    ].slice(0, 200),
  }
}
