import { useState } from 'react'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { Why } from '../../components/Why.tsx'
import { useTimes, useUnit } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** What it is like where the packs lie, and where it is written down. */
export function StoreClimate() {
  const times = useTimes()
  const { stores = {} } = useUnit().unit
  const w = words.theatre.climate
  return (
    <section className="stack no-print" aria-label={w.title}>
      <h2>{w.title}</h2>
      {Object.keys(stores).length === 0 && <p className="soft">{w.none}</p>}
      <ul className="lines">
        {Object.entries(stores).map(([place, reading]) => (
          <li key={place}>
            <div className="grow">
              {place}:{' '}
              <Why
                of={{
                  title: place,
                  value: w.value(reading.temperatureC, reading.humidityPercent),
                  entry: reading.entry,
                }}
              >
                {w.value(reading.temperatureC, reading.humidityPercent)}
              </Why>
              , {times.moment(reading.at)}
            </div>
          </li>
        ))}
      </ul>
      <details>
        <summary>{w.record}</summary>
        <ClimateForm />
      </details>
    </section>
  )
}

function ClimateForm() {
  const { id } = useUnit().unit
  const [place, setPlace] = useState('')
  const [celsius, setCelsius] = useState('')
  const [humidity, setHumidity] = useState('')
  const w = words.theatre.climate
  const complete = place !== '' && celsius !== '' && humidity !== ''
  return (
    <EntryForm
      kind="storage-measured"
      body={complete ? { unit: id, place, temperatureC: Number(celsius), humidityPercent: Number(humidity) } : null}
      action={w.record}
    >
      <TextField label={w.place} value={place} onChange={setPlace} />
      <div className="pair">
        <TextField
          label={w.celsius}
          type="number"
          step="any"
          min={-20}
          max={60}
          value={celsius}
          onChange={setCelsius}
        />
        <TextField
          label={w.humidity}
          type="number"
          min={0}
          max={100}
          step="any"
          value={humidity}
          onChange={setHumidity}
        />
      </div>
    </EntryForm>
  )
}
