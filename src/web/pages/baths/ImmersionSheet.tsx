import { useState } from 'react'
import type { ImmersionKnown } from '#road/baths/immersion-fold.ts'
import { rinseCount } from '#road/baths/limits.ts'
import { useQuery } from '@tanstack/react-query'
import { knownQuery } from '../../api/queries.ts'
import { Countdown } from '../../clocks/Countdown.tsx'
import { useClocks } from '../../clocks/use-clocks.ts'
import { usePolicy } from '../../components/use-policy.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, Tick } from '../../components/Fields.tsx'
import { useNames } from '../../components/Named.tsx'
import type { Bodies } from '#road/kinds.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { RinseForm } from './RinseForm.tsx'

/** One immersion on its way: under the surface, out and being rinsed, and decided. */
export function ImmersionSheet({ immersion }: { readonly immersion: ImmersionKnown }) {
  const clock = useClocks().find((each) => each.subject === immersion.id)
  const needed = usePolicy().limit(rinseCount).value
  const { data: rounds = [] } = useQuery(knownQuery('round', ['inBath']))
  const setName = useNames('set')
  const w = words.baths
  const names = rounds
    .filter((row) => immersion.rounds.includes(row.subject))
    .map((row) => setName(row.state.set))
    .join(', ')
  return (
    <section className="sheet stack" aria-label={names}>
      <h3>{names}</h3>
      {clock !== undefined && <Countdown clock={clock} />}
      {immersion.ended === null ? (
        <EntryForm kind="immersion-ended" body={{ immersion: immersion.id }} action={w.takeOut} />
      ) : (
        <>
          <p>
            <strong>{w.rinses(immersion.rinses.length, needed)}</strong>
          </p>
          <RinseForm immersion={immersion} />
          <h4>{w.decide}</h4>
          <DecideForm immersion={immersion} />
        </>
      )}
    </section>
  )
}

function DecideForm({ immersion }: { readonly immersion: ImmersionKnown }) {
  const [outcome, setOutcome] = useState<Bodies['immersion-decided']['outcome'] | null>(null)
  const [urological, setUrological] = useState(false)
  const [bladderCancer, setCancer] = useState<Bodies['immersion-decided']['bladderCancer']>('notKnown')
  const w = words.baths
  return (
    <EntryForm
      kind="immersion-decided"
      body={
        outcome === null
          ? null
          : { immersion: immersion.id, rounds: [...immersion.rounds], outcome, urological, bladderCancer }
      }
      action={w.decide}
      judged
    >
      <ChoiceField label={w.decide} value={outcome} options={optionsOf(w.outcomes)} onChange={setOutcome} />
      <Tick checked={urological} onChange={setUrological}>
        {w.urological}
      </Tick>
      {urological && (
        <ChoiceField label={w.bladderCancer} value={bladderCancer} options={optionsOf(w.cancer)} onChange={setCancer} />
      )}
    </EntryForm>
  )
}
