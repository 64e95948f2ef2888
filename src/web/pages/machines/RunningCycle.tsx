import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import { type SubjectId, subjectKey } from '#road/subject.ts'
import { type PracticeFault, type PracticeInput, type RunningAnswer } from '#service/machine-answers.ts'
import { post } from '../../api/client.ts'
import { runningQuery } from '../../api/machine-queries.ts'
import { SelectField } from '../../components/Fields.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { Table } from '../../components/Table.tsx'
import { part } from '../../components/part.tsx'
import { paths } from '../../paths.ts'
import { useUnit } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

const CycleChart = part(async () => (await import('../../charts/CycleChart.tsx')).CycleChart, <p>{words.loading}</p>)

type Machine = SubjectId<'machine'>

/** The cycle that a machine prints just now, as it grows. It is judged by nobody until it is over. */
export function RunningCycle({ machine, simulates }: { readonly machine: Machine; readonly simulates: boolean }) {
  const { demonstration } = useUnit().unit
  const { data } = useQuery(runningQuery(machine))
  if (data === undefined) return null
  return (
    <>
      {data.running !== null && <Running answer={data} running={data.running} />}
      {demonstration && simulates && data.running === null && data.practice === null && <Practice machine={machine} />}
    </>
  )
}

interface RunningProps {
  readonly answer: RunningAnswer
  readonly running: NonNullable<RunningAnswer['running']>
}

function Running({ answer, running }: RunningProps) {
  const { reading, load, program, latest, lines } = running
  const w = words.connect
  return (
    <section className="stack" aria-label={w.running}>
      <h2>{w.running}</h2>
      {answer.practice !== null && (
        <p className="told">{w.practising(answer.practice.speed, w.faults[answer.practice.fault])}</p>
      )}
      <p className="row">
        <span className="tag strong" style={{ fontSize: '1.2rem' }}>
          {w.notYet}
        </span>
        <span>{w.runningSays}</span>
      </p>
      <p>
        {reading !== null && `${w.seconds((reading.seconds / 60).toFixed(1))}. `}
        {reading !== null &&
          reading.phase !== null &&
          `${w.phase}: ${words.machines.phases[reading.phase] ?? reading.phase}. `}
        {w.byProgram(program)}{' '}
        {load !== null && (
          <>
            {w.forLoad} <Link to={paths.load(load)}>{subjectKey(load)}</Link>.
          </>
        )}
      </p>
      {reading === null ? (
        <p>{w.notDrawn(running.says)}</p>
      ) : (
        <>
          <CycleChart chart={reading.chart} name={subjectKey(answer.machine)} />
          <SoFar criteria={reading.criteria} />
        </>
      )}
      <details>
        <summary>
          {w.latest} ({w.lines(lines)})
        </summary>
        <pre className="small">{latest.join('\n')}</pre>
      </details>
    </section>
  )
}

function SoFar({ criteria }: Pick<NonNullable<RunningProps['running']['reading']>, 'criteria'>) {
  const w = words.connect
  const v = words.machines.verdict
  return (
    <Table>
      <caption>{w.criteria}</caption>
      <thead>
        <tr>
          <th scope="col">{v.criterion}</th>
          <th scope="col">{v.result}</th>
          <th scope="col">{w.sofar}</th>
          <th scope="col">{v.limit}</th>
        </tr>
      </thead>
      <tbody>
        {criteria.map(({ id, measured, limit }) => (
          <tr key={id}>
            <th scope="row">{words.machines.criteria[id] ?? id}</th>
            <td>{w.notYet}</td>
            <td>{measured ?? v.none}</td>
            <td>{limit ?? v.none}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}

const faults = ['none', 'airLeft', 'shortHold'] as const satisfies readonly PracticeFault[]
const speeds = ['1', '10', '60', '300'] as const

function Practice({ machine }: { readonly machine: Machine }) {
  const client = useQueryClient()
  const [fault, setFault] = useState<PracticeFault>('none')
  const [speed, setSpeed] = useState<(typeof speeds)[number]>('60')
  const beginning = useMutation({
    mutationFn: () =>
      post<RunningAnswer>(`/api/machines/${encodeURIComponent(machine)}/practice`, {
        fault,
        speed: Number(speed),
        seed: Date.now() % 100_000,
      } satisfies PracticeInput),
    onSettled: () => client.invalidateQueries({ queryKey: ['running'] }),
  })
  const w = words.connect
  return (
    <section className="stack no-print" aria-label={w.practice}>
      <h2>{w.practice}</h2>
      <p>{w.practiceSays}</p>
      <form
        className="form"
        aria-label={w.practice}
        onSubmit={(event) => {
          event.preventDefault()
          beginning.mutate()
        }}
      >
        <SelectField
          label={w.fault}
          value={fault}
          options={faults.map((value) => ({ value, label: w.faults[value] }))}
          onChange={setFault}
        />
        <SelectField
          label={w.speed}
          value={speed}
          options={speeds.map((value) => ({ value, label: w.speeds[value] }))}
          onChange={setSpeed}
        />
        <div>
          <button type="submit" disabled={beginning.isPending}>
            {w.begin}
          </button>
        </div>
        {beginning.error !== null && <ProblemNote error={beginning.error} />}
      </form>
    </section>
  )
}
