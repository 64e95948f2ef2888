import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useNavigate } from 'react-router'
import type { Bodies } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { type Instant, instant } from '#road/instant.ts'
import { windowOf } from '#road/wounds/investigation/window.ts'
import type { CaseLine, ChartAnswer } from '#service/api-types.ts'
import { chartOfWoundsQuery, linesQuery } from '../../api/wound-queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField, TextField, Tick } from '../../components/Fields.tsx'
import { datedKey } from '../../make-key.ts'
import { paths } from '../../paths.ts'
import { whoStore } from '../../session/who.ts'
import { useStore } from '../../session/use-store.ts'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { DayFields } from './InvestigationDays.tsx'

type Wound = SubjectId<'wound'>

/** How far back infections are offered; those of an alarm are offered whenever they were. */
const offeredDays = 365

/** Opens an investigation. One that is opened from an alarm names the infections of that alarm, and the list can be changed. */
export function OpenInvestigation({ chart }: { readonly chart: SubjectId<'chart'> | null }) {
  const navigate = useNavigate()
  const who = useStore(whoStore)
  const times = useTimes()
  const w = words.wounds.investigation
  const alarmed = useQuery({ ...chartOfWoundsQuery(chart ?? 'chart:none'), enabled: chart !== null })
  const run = alarmed.data?.path?.alarmRun.map((each) => each.wound) ?? []
  const [investigation] = useState(() => datedKey('investigation', 'investigation', new Date()))
  const [because, setBecause] = useState<Bodies['investigation-opened']['because'] | ''>(chart === null ? '' : 'alarm')
  const [why, setWhy] = useState('')
  // Null until somebody changes the list: it then holds whatever the chart says.
  const [chosen, setChosen] = useState<readonly Wound[] | null>(null)
  const wounds = chosen ?? run
  // Null until somebody changes the day: it then goes by the alarm.
  const [chosenFrom, setFrom] = useState<string | null>(null)
  const [usual] = useState(() => windowOf({ at: instant(Date.now()) }, null, (at) => times.toInput(at).slice(0, 10)))
  const [to, setTo] = useState(usual.to)
  // The first operation of the alarm may lie further back than the usual days.
  const firstOfRun = firstDay(alarmed.data?.path ?? null, (at) => times.toInput(at).slice(0, 10))
  const from = chosenFrom ?? (firstOfRun !== undefined && firstOfRun < usual.from ? firstOfRun : usual.from)
  const waiting = chart !== null && alarmed.data === undefined && alarmed.error === null
  const complete = because !== '' && why.length > 4 && from !== '' && to !== '' && who !== null && !waiting
  return (
    <EntryForm
      kind="investigation-opened"
      judged
      body={
        complete
          ? {
              investigation,
              because,
              why,
              lead: who,
              wounds: [...wounds],
              from,
              to,
              ...(chart === null ? {} : { chart }),
            }
          : null
      }
      action={w.openDo}
      onKept={() => void navigate(paths.investigation(investigation))}
    >
      <SelectField label={w.because} value={because} options={optionsOf(w.reasons)} onChange={setBecause} />
      <TextField label={w.why} long value={why} minLength={5} onChange={setWhy} />
      <Infections wounds={wounds} run={run} onChange={setChosen} />
      <DayFields from={from} to={to} onFrom={setFrom} onTo={setTo} />
    </EntryForm>
  )
}

/** The day of the first operation of an alarm. */
function firstDay(path: ChartAnswer['path'], dayOf: (at: Instant) => string): string | undefined {
  const run = new Set(path?.alarmRun.map((each) => each.case))
  const first = path?.points.find((point) => run.has(point.case))
  return first === undefined ? undefined : dayOf(first.at)
}

interface InfectionsProps {
  readonly wounds: readonly Wound[]
  /** Those that the chart alarmed at. */
  readonly run: readonly Wound[]
  readonly onChange: (wounds: readonly Wound[]) => void
}

function Infections({ wounds, run, onChange }: InfectionsProps) {
  const w = words.wounds.investigation
  const { data } = useQuery(linesQuery(offeredDays))
  const lines = data ?? []
  const infected = lines
    .toReversed()
    .flatMap((line) => (line.infection === null ? [] : [{ line, id: line.infection.wound }]))
  // One that is older than what is offered stays on the list by its key.
  const older = [...new Set([...run, ...wounds])].filter((id) => !infected.some((each) => each.id === id))
  const toggle = (id: Wound, on: boolean) => onChange(on ? [...wounds, id] : wounds.filter((other) => other !== id))
  // Until it is known what they are, bare keys would stand in a list that then turns into another.
  if (data === undefined) return <p className="soft">{words.loading}</p>
  if (infected.length === 0 && older.length === 0) return null
  return (
    <fieldset className="field">
      <legend>{w.wounds}</legend>
      <p className="small soft">{run.length > 0 ? w.woundsOfAlarm(run.length) : w.woundsNone}</p>
      {infected.map(({ line, id }) => (
        <Tick key={id} checked={wounds.includes(id)} onChange={(on) => toggle(id, on)}>
          {nameOf(line)}
          {run.includes(id) && `, ${w.ofAlarm}`}
        </Tick>
      ))}
      {older.map((id) => (
        <Tick key={id} checked={wounds.includes(id)} onChange={(on) => toggle(id, on)}>
          {id.slice('wound:'.length)}
        </Tick>
      ))}
    </fieldset>
  )
}

function nameOf({ procedure, day, case: id, infection }: CaseLine): string {
  const depth = infection === null ? '' : words.theatre.depths[infection.depth].toLowerCase()
  return `${day}, ${procedure} (${id.slice('case:'.length)}), ${depth}`
}
