import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { v7 } from 'uuid'
import { methodOf } from '#road/sterilising/method-of.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { subjectKey } from '#road/subject.ts'
import type { CycleLogAnswer, LoadCycleRequest } from '#service/api-types.ts'
import { post } from '../../api/client.ts'
import { subjectQuery } from '../../api/queries.ts'
import { sendCycle } from '../../api/send-cycle.ts'
import { SelectField, TextField } from '../../components/Fields.tsx'
import { type AnyLogMap, keptLogMap, type LogKind, sentLogMap } from '../../components/log-map-kinds.ts'
import { LogMap } from '../../components/LogMap.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { WhoNeeded } from '../../components/WhoNeeded.tsx'
import { useStore } from '../../session/use-store.ts'
import { whoStore, workstationStore } from '../../session/who.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import type { ChosenLog } from './LogImport.tsx'
import { Verdict } from './Verdict.tsx'
import { part } from '../../components/part.tsx'

const CycleChart = part(async () => (await import('../../charts/CycleChart.tsx')).CycleChart, <p>{words.loading}</p>)

interface Props {
  readonly load: LoadKnown
  readonly log: ChosenLog
}

export function LogReading({ load, log }: Props) {
  const machine = useQuery({ ...subjectQuery(load.machine ?? 'machine:none'), enabled: load.machine !== null })
  if (machine.data === undefined) return <Loaded query={machine}>{() => null}</Loaded>
  const method = methodOf(machine.data.state)
  const kind = method === undefined || method === 'steam' ? 'steam' : 'gas'
  const { header, byNames } = log.preview
  const initial = keptLogMap(kind, machine.data.state.logMap, header) ?? byNames[kind]
  return <MappedReading load={load} log={log} kind={kind} initial={initial} />
}

function MappedReading({
  load,
  log,
  kind,
  initial,
}: Props & { readonly kind: LogKind; readonly initial: AnyLogMap | null }) {
  const [map, setMap] = useState(initial)
  const sent = map === null ? null : (sentLogMap(kind, map) ?? 'notWhole')
  return (
    <>
      <LogMap kind={kind} preview={log.preview} map={map} onChange={setMap} machine={load.machine} />
      {/* Read by other columns than those on screen, a verdict would be of another cycle. */}
      {sent === 'notWhole' ? (
        <output>{words.machines.log.mapNotWhole}</output>
      ) : (
        <Reading load={load} log={log} map={sent} />
      )}
    </>
  )
}

type SentMap = NonNullable<LoadCycleRequest['map']>

function Reading({ load, log, map }: Props & { readonly map: SentMap | null }) {
  const [chosen, setChosen] = useState<string>('')
  const read = useQuery({
    queryKey: ['read', load.id, log.name, log.text.length, JSON.stringify(map)],
    queryFn: () =>
      post<CycleLogAnswer>('/api/cycle-logs/read', {
        log: log.arrived === undefined ? { text: log.text } : { digest: log.arrived.log },
        program: load.program,
        ...(map === null ? {} : { map }),
        ...(load.machine === null ? {} : { machine: load.machine }),
      }),
    placeholderData: keepPreviousData,
    retry: false,
  })
  const w = words.machines.log
  return (
    <>
      {read.error !== null && <ProblemNote error={read.error} />}
      {read.isPending && <output>{w.reading}</output>}
      {read.data !== undefined && read.error === null && (
        <Cycles load={load} log={log} map={map} answer={read.data} chosen={chosen} onChoose={setChosen} />
      )}
    </>
  )
}

interface CyclesProps extends Props {
  readonly map: SentMap | null
  readonly answer: CycleLogAnswer
  readonly chosen: string
  readonly onChoose: (cycle: string) => void
}

function Cycles({ load, log, map, answer, chosen, onChoose }: CyclesProps) {
  const w = words.machines.log
  const cycle = answer.cycles.find((each) => String(each.cycle) === chosen) ?? answer.cycles[0]
  if (cycle === undefined) return <p>{w.none}</p>
  return (
    <>
      {answer.notes?.map((note) => (
        <p key={note} className="told">
          {note}
        </p>
      ))}
      {answer.cycles.length > 1 && (
        <SelectField
          label={w.cycles}
          value={String(cycle.cycle)}
          options={answer.cycles.map((each) => ({ value: String(each.cycle), label: w.cycle(each.cycle) }))}
          onChange={onChoose}
        />
      )}
      <CycleChart chart={cycle.chart} name={subjectKey(load.id)} />
      <Verdict report={cycle.report} />
      <KeepCycle
        load={load}
        dated={cycle.startedAt !== null}
        firstReadingAt={log.arrived?.firstReadingAt ?? null}
        request={{
          ...(log.arrived === undefined ? { text: log.text } : { arrived: log.arrived.log }),
          program: load.program,
          ...(map === null ? {} : { map }),
          ...(answer.cycles.length > 1 ? { cycle: cycle.cycle } : {}),
        }}
      />
    </>
  )
}

interface KeepProps {
  readonly load: LoadKnown
  readonly dated: boolean
  readonly firstReadingAt: string | null
  readonly request: Pick<LoadCycleRequest, 'text' | 'arrived' | 'program' | 'map' | 'cycle'>
}

function KeepCycle({ load, dated, firstReadingAt, request }: KeepProps) {
  const id = useRef(v7())
  const times = useTimes()
  const by = useStore(whoStore)
  const workstation = useStore(workstationStore)
  const client = useQueryClient()
  const [startedAt, setStartedAt] = useState(firstReadingAt === null ? '' : times.toInput(firstReadingAt))
  const [number, setNumber] = useState('')
  const keeping = useMutation({
    mutationFn: async () => {
      if (by === null) return
      const started = times.fromInput(startedAt)
      await sendCycle(load.id, {
        ...request,
        id: id.current,
        by,
        workstation,
        ...(started === undefined ? {} : { startedAt: started }),
        ...(number === '' ? {} : { cycleNumber: number }),
      })
    },
    onSettled: () => client.invalidateQueries(),
  })
  const w = words.machines.log
  return (
    <form
      className="form"
      aria-label={w.keep}
      onSubmit={(event) => {
        event.preventDefault()
        keeping.mutate()
      }}
    >
      {!dated && (
        <TextField
          label={w.startedAt}
          hint={w.startedAtSays}
          type="datetime-local"
          value={startedAt}
          onChange={setStartedAt}
        />
      )}
      <TextField label={w.cycleNumber} optional value={number} onChange={setNumber} />
      <WhoNeeded />
      <div>
        <button type="submit" className="main large" disabled={keeping.isPending || by === null}>
          {keeping.isPending ? words.form.sending : w.keep}
        </button>
      </div>
      {keeping.error !== null && <ProblemNote error={keeping.error} />}
    </form>
  )
}
