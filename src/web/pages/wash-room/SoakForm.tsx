import { useState } from 'react'
import { soakAlarmMinutes, soakCautionMinutes } from '#road/cleaning/limits.ts'
import { moistSoakAlarmMinutes } from '#road/cleaning/water-limits.ts'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import type { KnownRow } from '#service/api-types.ts'
import { Celsius } from '#units/quantities.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { ChoiceField, TextField } from '../../components/Fields.tsx'
import { LimitLine } from '../../components/LimitLine.tsx'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { SoakWait } from './SoakWait.tsx'

type Soak = Bodies['soak-started']

interface Props {
  readonly row: KnownRow<'round'>
  readonly onDone: () => void
}

/** The soak, and how the set came: what dried on its way is harder to clean. */
export function SoakForm({ row, onDone }: Props) {
  const times = useTimes()
  const [solution, setSolution] = useState<Soak['solution']>('enzymatic')
  const [water, setWater] = useState('')
  const [keptIn, setKeptIn] = useState<NonNullable<Soak['keptIn']> | null>(null)
  const [left, setLeft] = useState('')
  const [arrived, setArrived] = useState('')
  const waterC = Celsius.safeParse(Number(water)).data
  const leftTheatreAt = times.fromInput(left) as Instant | undefined
  const arrivedAt = times.fromInput(arrived) as Instant | undefined
  const way: Partial<Soak> = {
    ...(keptIn === null ? {} : { keptIn, transport: keptIn === 'nothing' ? 'dry' : 'moist' }),
    ...(leftTheatreAt === undefined ? {} : { leftTheatreAt }),
    ...(arrivedAt === undefined ? {} : { arrivedAt }),
  }
  const w = words.wash
  // Only a set that was used came from a theatre, soiled.
  const byUse = row.state.began?.because === 'use'
  return (
    <EntryForm
      kind="soak-started"
      judged
      body={{
        round: row.subject,
        solution,
        ...(water === '' || waterC === undefined ? {} : { waterC }),
        ...way,
      }}
      action={w.startSoak}
      onKept={onDone}
    >
      {byUse && (
        <>
          <SoakWait since={row.state.began?.at ?? row.since} />
          <LimitLine id={soakCautionMinutes.id} />
          <LimitLine id={keptIn !== null && keptIn !== 'nothing' ? moistSoakAlarmMinutes.id : soakAlarmMinutes.id} />
          <ChoiceField label={w.keptLabel} value={keptIn} options={optionsOf(w.kept)} onChange={setKeptIn} />
          <div className="pair">
            <TextField label={w.leftTheatre} type="datetime-local" optional value={left} onChange={setLeft} />
            <TextField label={w.arrived} type="datetime-local" optional value={arrived} onChange={setArrived} />
          </div>
        </>
      )}
      <ChoiceField label={w.solution} value={solution} options={optionsOf(w.solutions)} onChange={setSolution} />
      <TextField
        label={w.water}
        type="number"
        min={0}
        max={100}
        step="any"
        optional
        value={water}
        onChange={setWater}
      />
    </EntryForm>
  )
}
