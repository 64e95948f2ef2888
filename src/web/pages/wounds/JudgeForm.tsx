import { useState } from 'react'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import { judgeByDefinition, type RuledCriterion } from '#road/wounds/case-definition.ts'
import { judgedOnNothing } from '#road/wounds/rules/judged-with-reason.ts'
import type { KnownRow } from '#service/api-types.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField, Tick } from '../../components/Fields.tsx'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

/** The criteria as ticks; what they come to is worked out as they are ticked, and judged again when it is kept. */
export function JudgeForm({ row }: { readonly row: KnownRow<'wound'> }) {
  const times = useTimes()
  const w = words.wounds
  const { noted, judged } = row.state
  const [criteria, setCriteria] = useState<readonly RuledCriterion[]>(judged?.criteria ?? [])
  const [event, setEvent] = useState(() => times.toInput(judged?.eventAt ?? noted?.onsetAt ?? new Date().toISOString()))
  const [why, setWhy] = useState(judged?.why ?? '')
  const verdict = judgeByDefinition(criteria)
  const eventAt = times.fromInput(event)
  const outcome: Bodies['wound-judged']['outcome'] = verdict.meets ? 'infection' : 'notInfection'
  // A form that nobody filled in is no judgement: without a tick it needs its reason.
  const unsaid = judgedOnNothing({ criteria: [...criteria], why })
  const toggle = (each: RuledCriterion, on: boolean) =>
    setCriteria(on ? [...criteria, each] : criteria.filter((other) => other !== each))
  return (
    <EntryForm
      kind="wound-judged"
      judged
      body={
        eventAt === undefined || unsaid
          ? null
          : {
              wound: row.state.id,
              outcome,
              depth: verdict.depth ?? noted?.depth ?? 'superficial',
              criteria: [...criteria],
              eventAt: eventAt as Instant,
              ...(why === '' ? {} : { why }),
            }
      }
      action={w.wound.judgeDo}
      lacking={unsaid ? w.wound.whyNone : undefined}
    >
      <fieldset className="field">
        <legend>{w.wound.judge}</legend>
        {optionsOf(w.criteria).map(({ value, label }) => (
          <Tick key={value} checked={criteria.includes(value)} onChange={(on) => toggle(value, on)}>
            {label}
          </Tick>
        ))}
      </fieldset>
      <p aria-live="polite">
        {w.wound.outcome}:{' '}
        <strong>
          {w.wound.outcomes[outcome]}
          {verdict.depth !== null && `, ${words.theatre.depths[verdict.depth].toLowerCase()}`}
        </strong>
      </p>
      <TextField label={w.wound.eventAt} type="datetime-local" value={event} onChange={setEvent} />
      <TextField label={w.wound.why} long optional={criteria.length > 0} value={why} onChange={setWhy} />
    </EntryForm>
  )
}
