import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { Bodies } from '#road/kinds.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { KilopascalAbsolute, Seconds } from '#units/quantities.ts'
import { subjectKey } from '#road/subject.ts'
import { loadsOfQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { LotField } from '../../components/LotField.tsx'
import { useLimit } from '../../components/use-limit.ts'
import { useLot } from '../../components/use-lot.ts'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import type { MachineNeed } from './machine-day.ts'

interface Props {
  readonly machine: MachineKnown
  readonly need: MachineNeed
}

/** What was tested today, what is due, and where it is written down. */
export function MachineTests({ machine, need }: Props) {
  const w = words.machines
  return (
    <section className="stack">
      <h2>{w.testForms}</h2>
      <div className="halves">
        <div className="sheet stack">
          <h3>{w.leak}</h3>
          <LeakSays machine={machine} />
          <details open={need === 'leak'}>
            <summary>{w.recordLeakTitle}</summary>
            <LeakForm machine={machine} />
          </details>
        </div>
        <div className="sheet stack">
          <h3>{w.air}</h3>
          <AirSays machine={machine} due={need === 'air'} />
          {machine.airRemoval === 'dynamic' && (
            <details open={need === 'air'}>
              <summary>{w.readAir}</summary>
              <AirForm machine={machine} />
            </details>
          )}
        </div>
      </div>
    </section>
  )
}

function LeakSays({ machine }: { readonly machine: MachineKnown }) {
  const times = useTimes()
  const limit = useLimit('leak-kpa-per-minute')
  const test = machine.leakTest
  const w = words.machines
  if (test === null) return <p className="soft">{w.never}</p>
  const rate = ((test.endKPa - test.startKPa) / test.seconds) * 60
  const value = w.leakRate(rate.toFixed(3))
  return (
    <p>
      <Why
        of={{
          title: w.leakRateTitle,
          value,
          says: w.leakRateSays,
          working: 'leak-rate',
          inputs: `${test.startKPa} kPa, ${test.endKPa} kPa, ${test.seconds} s`,
          limit: limit === undefined ? undefined : `${String(limit.value)} ${limit.unit}`,
          source: limit?.source,
          entry: test.entry,
        }}
      >
        {value}
      </Why>
      , {w.doneAt(times.moment(test.at))}
    </p>
  )
}

function AirSays({ machine, due }: { readonly machine: MachineKnown; readonly due: boolean }) {
  const times = useTimes()
  const test = machine.airRemovalTest
  const w = words.machines
  if (machine.airRemoval !== 'dynamic') return <p className="soft">{w.airNone}</p>
  return (
    <p>
      {test === null ? (
        w.never
      ) : (
        <>
          <Why of={{ title: w.air, value: w.passed[test.result], entry: test.entry }}>{w.passed[test.result]}</Why>,{' '}
          {w.doneAt(times.moment(test.at))}
        </>
      )}
      {due && (
        <>
          {'. '}
          <strong>{w.airDue}</strong>
        </>
      )}
    </p>
  )
}

function AirForm({ machine }: { readonly machine: MachineKnown }) {
  const [result, setResult] = useState<Bodies['air-removal-tested']['result'] | null>(null)
  const lot = useLot('airRemoval')
  const { data: loads = [] } = useQuery(loadsOfQuery(machine.id))
  // The newest test load that nobody has read yet: with its result it is done.
  const load = loads
    .filter(({ state }) => state.purpose === 'airRemovalTest' && state.airRemoval === undefined)
    .toSorted((a, b) => (b.state.builtAt ?? '').localeCompare(a.state.builtAt ?? ''))[0]?.subject
  const w = words.machines
  return (
    <EntryForm
      kind="air-removal-tested"
      body={
        result === null || lot.text === ''
          ? null
          : {
              machine: machine.id,
              ...(load === undefined ? {} : { load }),
              result,
              indicatorLot: lot.text,
              ...(lot.id === undefined ? {} : { fromLot: lot.id }),
            }
      }
      action={w.recordAir}
      onKept={() => setResult(null)}
    >
      {load !== undefined && <p className="soft">{w.airOfLoad(subjectKey(load))}</p>}
      <ChoiceField label={w.result} value={result} options={optionsOf(w.passed)} onChange={setResult} />
      <LotField label={w.lot} choice={lot} unknown="text" />
    </EntryForm>
  )
}

function LeakForm({ machine }: { readonly machine: MachineKnown }) {
  const [start, setStart] = useState('')
  const [end, setEnd] = useState('')
  const [seconds, setSeconds] = useState('600')
  const [settling, setSettling] = useState('300')
  const w = words.machines
  const startKPa = KilopascalAbsolute.safeParse(Number(start)).data
  const endKPa = KilopascalAbsolute.safeParse(Number(end)).data
  const length = Seconds.safeParse(Number(seconds)).data
  const stabilisationSeconds = Seconds.safeParse(Number(settling)).data
  const complete = start !== '' && end !== '' && startKPa !== undefined && endKPa !== undefined && length !== undefined
  return (
    <EntryForm
      kind="leak-tested"
      body={
        complete
          ? {
              machine: machine.id,
              startKPa,
              endKPa,
              seconds: length,
              ...(settling === '' || stabilisationSeconds === undefined ? {} : { stabilisationSeconds }),
            }
          : null
      }
      action={w.recordLeak}
    >
      <div className="pair">
        <TextField label={w.startKPa} type="number" min={0} step="any" value={start} onChange={setStart} />
        <TextField label={w.endKPa} type="number" min={0} step="any" value={end} onChange={setEnd} />
        <TextField label={w.seconds} type="number" min={1} value={seconds} onChange={setSeconds} />
        <TextField label={w.settling} type="number" min={0} optional value={settling} onChange={setSettling} />
      </div>
    </EntryForm>
  )
}
