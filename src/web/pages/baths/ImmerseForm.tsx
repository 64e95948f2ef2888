import { useState } from 'react'
import { Link } from 'react-router'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import type { BathClaim, BathHow } from '#road/baths/products.ts'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, Tick } from '../../components/Fields.tsx'
import { useNames } from '../../components/Named.tsx'
import { useRounds } from '../../components/use-rounds.ts'
import { datedKey } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

const immersible = new Set(['washed', 'inspected'])
const nothingSeen = {
  fullyImmersed: false,
  lumensFilled: false,
  cleanedAndDry: false,
  implant: false,
  mycobacteriaSuspected: false,
}

/** What goes in, for what, and what was looked at; the rules say at once what stands against it. */
export function ImmerseForm({ bath }: { readonly bath: BathKnown }) {
  const { data: rounds = [] } = useRounds()
  const setName = useNames('set')
  const [immersion] = useState(() => datedKey('immersion', 'bath', new Date()))
  const [chosen, setChosen] = useState<readonly SubjectId<'round'>[]>([])
  const [claim, setClaim] = useState<BathClaim>('disinfect')
  const [how, setHow] = useState<BathHow>('manual')
  const [seen, setSeen] = useState(nothingSeen)
  const w = words.baths
  const ready = rounds.filter((row) => immersible.has(row.standing))
  const choose = (round: SubjectId<'round'>, on: boolean) =>
    setChosen((before) => (on ? [...before, round] : before.filter((each) => each !== round)))
  const tick = (field: keyof typeof nothingSeen, label: string) => (
    <Tick checked={seen[field]} onChange={(on) => setSeen((before) => ({ ...before, [field]: on }))}>
      {label}
    </Tick>
  )
  return (
    <EntryForm
      kind="immersion-started"
      body={chosen.length === 0 ? null : { immersion, bath: bath.id, rounds: [...chosen], claim, how, ...seen }}
      action={w.immerse}
      judged
    >
      <fieldset className="field">
        <legend>{w.sets}</legend>
        {ready.length === 0 && (
          <p>
            {w.noSets} <Link to={paths.washRoom}>{w.toWashRoom}</Link>
          </p>
        )}
        <div className="choices">
          {ready.map((row) => (
            <Tick key={row.subject} checked={chosen.includes(row.subject)} onChange={(on) => choose(row.subject, on)}>
              {setName(row.state.set)}
            </Tick>
          ))}
        </div>
      </fieldset>
      <ChoiceField label={w.claim} value={claim} options={optionsOf(w.claims)} onChange={setClaim} />
      <ChoiceField label={w.how} value={how} options={optionsOf(w.hows)} onChange={setHow} />
      {tick('cleanedAndDry', w.cleanedAndDry)}
      {tick('fullyImmersed', w.fullyImmersed)}
      {tick('lumensFilled', w.lumensFilled)}
      {tick('implant', w.implant)}
      {tick('mycobacteriaSuspected', w.mycobacteria)}
    </EntryForm>
  )
}
