import { useState } from 'react'
import type { Celsius } from '#units/quantities.ts'
import { aeratedHours } from '#road/gases/load-gas.ts'
import type { Bodies } from '#road/kinds.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { Countdown } from '../../clocks/Countdown.tsx'
import { useClocks } from '../../clocks/use-clocks.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, SelectField, TextField } from '../../components/Fields.tsx'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

type Place = Bodies['aeration-started']['place']

/** The aeration of an ethylene oxide load: its clock is worked out from the record, so it survives a reload. */
export function Aeration({ load }: { readonly load: LoadKnown }) {
  const w = words.gas
  const times = useTimes()
  const { aeration, aerated, stopped } = load.gas
  const clock = useClocks().find((each) => each.kind === 'aeration' && each.subject === load.id)
  return (
    <section className="stack" aria-label={w.aeration}>
      <h2>{w.aeration}</h2>
      {stopped !== null && aeration === null && (
        <p>
          <strong>{w.stoppedAt(times.moment(stopped.at), w.stops[stopped.cause])}</strong>
          {stopped.note !== undefined && ` ${stopped.note}`}
        </p>
      )}
      {aeration === null && stopped === null && <p>{w.notStarted}</p>}
      {aeration !== null && aerated === null && (
        <>
          <p>
            <strong>{w.held}</strong>
          </p>
          {clock === undefined ? <p>{w.tooCold}</p> : <Countdown clock={clock} />}
          <End load={load} setC={aeration.setC} />
          <Stop load={load} />
        </>
      )}
      {aerated !== null && (
        <p>{w.done(aerated.lowestC, Number((aeratedHours(load.gas, aerated.at) ?? 0).toFixed(1)))}</p>
      )}
      {aeration === null && <Start load={load} />}
    </section>
  )
}

function Start({ load }: { readonly load: LoadKnown }) {
  const w = words.gas
  const [place, setPlace] = useState<Place>('sameChamber')
  const [setC, changeSetC] = useState('55')
  const [maker, setMaker] = useState('')
  const celsius = Number(setC)
  return (
    <EntryForm
      kind="aeration-started"
      judged
      body={
        setC === '' || Number.isNaN(celsius)
          ? null
          : {
              load: load.id,
              place,
              setC: celsius as Celsius,
              ...(Number(maker) > 0 ? { makerHours: Number(maker) } : {}),
            }
      }
      action={w.begin}
    >
      <ChoiceField label={w.place} value={place} options={optionsOf(w.places)} onChange={setPlace} />
      <div className="pair">
        <TextField label={w.setC} type="number" step="any" value={setC} onChange={changeSetC} />
        <TextField label={w.makerHours} type="number" step="any" optional value={maker} onChange={setMaker} />
      </div>
    </EntryForm>
  )
}

function End({ load, setC }: { readonly load: LoadKnown; readonly setC: number }) {
  const [lowest, setLowest] = useState(String(setC))
  const celsius = Number(lowest)
  return (
    <EntryForm
      kind="aeration-ended"
      judged
      body={lowest === '' || Number.isNaN(celsius) ? null : { load: load.id, lowestC: celsius as Celsius }}
      action={words.gas.end}
    >
      <TextField label={words.gas.lowestC} type="number" step="any" value={lowest} onChange={setLowest} />
    </EntryForm>
  )
}

type Cause = Bodies['aeration-stopped']['cause']

/** An aeration that was cut short: why, and when. Its clock ends, and the load is aerated anew. */
function Stop({ load }: { readonly load: LoadKnown }) {
  const w = words.gas
  const [cause, setCause] = useState<Cause>('power')
  const [note, setNote] = useState('')
  return (
    <details>
      <summary>{w.stopTitle}</summary>
      <EntryForm
        kind="aeration-stopped"
        judged
        body={{ load: load.id, cause, ...(note === '' ? {} : { note }) }}
        action={w.stop}
      >
        <SelectField label={w.cause} value={cause} options={optionsOf(w.stops)} onChange={setCause} />
        <TextField label={w.note} optional value={note} onChange={setNote} />
      </EntryForm>
    </details>
  )
}
