import { useState } from 'react'
import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'
import type { Hours, RunByDefault } from './use-hours-lines.ts'

const clockPattern = '([01][0-9]|2[0-3]):[0-5][0-9]|24:00'
const isClock = (text: string): boolean => new RegExp(`^(?:${clockPattern})$`).test(text)

interface Props {
  readonly unit: SubjectId<'unit'>
  /** What works then; empty for a theatre that is to be named. */
  readonly name: string
  /** As they are set, or by default. */
  readonly hours: Hours
  readonly run?: RunByDefault | undefined
  readonly onKept: () => void
}

/** Hours of one theatre, place of work or machine; what is set takes the place of what was set before. */
export function HoursForm({ unit, name, hours: before, run, onKept }: Props) {
  const [hours, setHours] = useState(before)
  const w = words.hours
  const times = hours.kind === 'theatre' ? [hours.opens, hours.closes, hours.mustClose] : [hours.from, hours.to]
  const typed = times.every(isClock)
  const ordered = inOrder(hours)
  const complete = typed && ordered && (hours.kind !== 'theatre' || hours.theatre !== '')
  return (
    <EntryForm
      kind="hours-set"
      body={complete ? { unit, hours } : null}
      action={w.setDo}
      label={name === '' ? w.addTheatre : w.setOf(name)}
      lacking={typed && !ordered ? w.order[hours.kind] : undefined}
      onKept={onKept}
    >
      {hours.kind === 'theatre' && <TheatreFields named={name !== ''} hours={hours} onChange={setHours} />}
      {hours.kind === 'staff' && <StaffFields hours={hours} onChange={setHours} />}
      {hours.kind === 'machine' && <MachineFields hours={hours} run={run} onChange={setHours} />}
    </EntryForm>
  )
}

/** Clock times of one length: their order as texts is that of the day. */
function inOrder(hours: Hours): boolean {
  if (hours.kind === 'theatre') return hours.opens < hours.closes && hours.closes <= hours.mustClose
  return hours.from < hours.to
}

interface FieldsProps<Kind extends Hours['kind']> {
  readonly hours: Extract<Hours, { kind: Kind }>
  readonly onChange: (hours: Hours) => void
}

function TheatreFields({ named, hours, onChange }: FieldsProps<'theatre'> & { readonly named: boolean }) {
  const w = words.hours
  return (
    <>
      {!named && (
        <TextField label={w.theatre} value={hours.theatre} onChange={(theatre) => onChange({ ...hours, theatre })} />
      )}
      <Clock label={w.opens} value={hours.opens} onChange={(opens) => onChange({ ...hours, opens })} />
      <Clock label={w.closes} value={hours.closes} onChange={(closes) => onChange({ ...hours, closes })} />
      <Clock label={w.mustClose} value={hours.mustClose} onChange={(mustClose) => onChange({ ...hours, mustClose })} />
    </>
  )
}

function StaffFields({ hours, onChange }: FieldsProps<'staff'>) {
  const [count, setCount] = useState(String(hours.count))
  const w = words.hours
  const change = (text: string) => {
    setCount(text)
    if (text !== '') onChange({ ...hours, count: Number(text) })
  }
  return (
    <>
      <TextField label={w.count} type="number" min={0} max={50} step={1} value={count} onChange={change} />
      <Clock label={w.from} value={hours.from} onChange={(from) => onChange({ ...hours, from })} />
      <Clock label={w.to} value={hours.to} onChange={(to) => onChange({ ...hours, to })} />
    </>
  )
}

function MachineFields({ hours, run, onChange }: FieldsProps<'machine'> & Pick<Props, 'run'>) {
  const { places, runMinutes, ...rest } = hours
  const w = words.hours
  const numbers = (next: { places?: number | undefined; runMinutes?: number | undefined }) =>
    onChange({
      ...rest,
      ...(next.places === undefined ? {} : { places: next.places }),
      ...(next.runMinutes === undefined ? {} : { runMinutes: next.runMinutes }),
    })
  const shared = { type: 'number', min: 1, step: 1, optional: true } as const
  const numberOf = (text: string) => (text === '' ? undefined : Number(text))
  return (
    <>
      <Clock label={w.from} value={hours.from} onChange={(from) => onChange({ ...hours, from })} />
      <Clock label={w.to} value={hours.to} onChange={(to) => onChange({ ...hours, to })} />
      <TextField
        {...shared}
        label={w.runPlaces}
        hint={w.elseRecord(run?.places)}
        max={200}
        value={places === undefined ? '' : String(places)}
        onChange={(text) => numbers({ places: numberOf(text), runMinutes })}
      />
      <TextField
        {...shared}
        label={w.runMinutes}
        hint={w.elseRecord(run?.minutes)}
        max={2880}
        value={runMinutes === undefined ? '' : String(runMinutes)}
        onChange={(text) => numbers({ places, runMinutes: numberOf(text) })}
      />
    </>
  )
}

interface ClockProps {
  readonly label: string
  readonly value: string
  readonly onChange: (value: string) => void
}

/** Text, since a native field of time has no 24:00. */
function Clock(props: ClockProps) {
  return <TextField {...props} pattern={clockPattern} hint={words.hours.clockHint} />
}
