import type { CareDue } from '#road/sterilising/care-due.ts'
import type { DueTest } from '#road/sterilising/due-tests.ts'
import type { MachineKnown } from '#road/sterilising/machine-fold.ts'
import { MarkShape } from '../round/Legend.tsx'
import { useMachineDays, useQualification } from '../../components/use-due-tests.ts'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { dueMark, dueText } from '../../words/due.ts'
import { words } from '../../words/words.ts'

/** Each test that this machine needs by its method: where it stands, when it was done, by when it is due. */
export function TodaysTests({ machine }: { readonly machine: MachineKnown }) {
  const [day] = useMachineDays([machine])
  const w = words.machines
  return (
    <section className="stack" aria-label={w.tests}>
      <h2>{w.tests}</h2>
      <QualificationSays machine={machine} />
      {day !== undefined && (
        <ul className="lines legend">
          {day.tests.map((test) => (
            <DueLine key={`${test.test} ${test.lot ?? ''}`} test={test} />
          ))}
        </ul>
      )}
    </section>
  )
}

function DueLine({ test }: { readonly test: DueTest }) {
  const times = useTimes()
  const { due } = words.machines
  const says = due.states[test.state]
  return (
    <li>
      <MarkShape mark={dueMark(test)} />
      <div className="grow">
        {dueText(test)}:{' '}
        <strong>
          <Why
            of={{
              title: dueText(test),
              value: says,
              says: due.meanings[test.state],
              source: test.source,
              entry: test.last?.entry ?? undefined,
            }}
          >
            {says}
          </Why>
        </strong>
        <br />
        <span className="soft">
          {test.last === null ? due.noneFound : due.lastAt(times.moment(test.last.at))}
          {test.dueBy !== null && `, ${due.by(times.moment(test.dueBy))}`}
        </span>
      </div>
    </li>
  )
}

function QualificationSays({ machine }: { readonly machine: MachineKnown }) {
  const times = useTimes()
  const known = useQualification(machine)
  const { qualification: w } = words.machines
  if (known === undefined) return null
  const { biological, airRemoval, programsOpen, programsOut, care, because, at, source } = known
  const missing = known.state !== 'qualified'
  return (
    <>
      <p>
        {w.title}:{' '}
        <strong>
          <Why
            of={{
              title: w.title,
              value: w.states[known.state],
              says: w.becauses[because],
              limit: w.needs(biological.needed, airRemoval?.needed ?? 0),
              source,
            }}
          >
            {w.states[known.state]}
          </Why>
        </strong>
        {at !== null && `, ${times.moment(at)}`}. {w.becauses[because]}{' '}
        {missing && w.soFar(biological.good, biological.needed)}{' '}
        {missing &&
          airRemoval !== null &&
          w.airSoFar(Math.min(airRemoval.passed, airRemoval.needed), airRemoval.needed)}{' '}
        {!missing && programsOpen.length > 0 && w.open(programsOpen.join(', '))}
        {programsOut.length > 0 && <strong>{w.programsOut(programsOut.join(', '))}</strong>}
      </p>
      <ul className="lines" aria-label={w.title}>
        {care.map((each) => (
          <CareLine key={each.what} care={each} />
        ))}
      </ul>
    </>
  )
}

function CareLine({ care }: { readonly care: CareDue }) {
  const times = useTimes()
  const { qualification: w, due } = words.machines
  const { state, dueBy, inQuestionSince, source } = care
  return (
    <li>
      <div className="grow">
        {w.care[care.what]}:{' '}
        <strong>
          <Why of={{ title: w.care[care.what], value: w.careStates[state], says: w.careMeanings[state], source }}>
            {w.careStates[state]}
          </Why>
        </strong>
        {dueBy !== null && `, ${due.by(times.day(dueBy))}`}
        <br />
        <span className="soft">
          {w.careMeanings[state]} {inQuestionSince !== null && w.inQuestion(times.moment(inQuestionSince))}
        </span>
      </div>
    </li>
  )
}
