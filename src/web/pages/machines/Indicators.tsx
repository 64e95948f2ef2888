import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { biologicalOutcome, isReadTooEarly } from '#road/sterilising/load-fold.ts'
import { readingDue } from '#road/sterilising/reading-due.ts'
import { useWantedIncubation } from '../../components/use-wanted-incubation.ts'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { BiologicalForm } from './BiologicalForm.tsx'
import { ChemicalForm } from './ChemicalForm.tsx'

/** What was read, and where the next reading is written down. */
export function Indicators({ load }: { readonly load: LoadKnown }) {
  const w = words.machines.indicators
  return (
    <section className="stack">
      <h2>{w.title}</h2>
      <div className="halves">
        <div className="sheet stack">
          <h3>{w.chemical}</h3>
          <ChemicalRead load={load} />
          <details className="no-print">
            <summary>{w.read}</summary>
            <ChemicalForm load={load} />
          </details>
        </div>
        <div className="sheet stack">
          <BiologicalTitle load={load} />
          <BiologicalRead load={load} />
          <details className="no-print">
            <summary>{w.readBio}</summary>
            <BiologicalForm load={load} />
          </details>
        </div>
      </div>
    </section>
  )
}

function BiologicalTitle({ load }: { readonly load: LoadKnown }) {
  const times = useTimes()
  const wanted = useWantedIncubation(load)
  const { indicators, biological } = words.machines
  if (wanted === undefined) return <h3>{indicators.biological}</h3>
  const says = isReadTooEarly(load, wanted) ? indicators.readEarly : biological[biologicalOutcome(load, wanted)]
  const due = readingDue(load, wanted)
  return (
    <>
      <h3>
        {indicators.biological}: {says}
      </h3>
      {due !== undefined && <p>{(due.again ? indicators.readAgainAt : indicators.readAt)(times.moment(due.at))}</p>}
    </>
  )
}

function ChemicalRead({ load }: { readonly load: LoadKnown }) {
  const times = useTimes()
  const { wheres, chemicalTypes, chemicalResults, indicators } = words.machines
  if (load.chemical.length === 0) return <p className="soft">{indicators.none}</p>
  return (
    <ul className="lines">
      {load.chemical.map((read) => (
        <li key={read.entry}>
          <div className="grow">
            {wheres[read.where]}, {chemicalTypes[read.type]}:{' '}
            <strong>
              <Why of={{ title: wheres[read.where], value: chemicalResults[read.result], entry: read.entry }}>
                {chemicalResults[read.result]}
              </Why>
            </strong>
            , {times.moment(read.at)}
          </div>
        </li>
      ))}
    </ul>
  )
}

function BiologicalRead({ load }: { readonly load: LoadKnown }) {
  const times = useTimes()
  const { growth, indicators } = words.machines
  if (load.biological.length === 0) return <p className="soft">{indicators.none}</p>
  return (
    <ul className="lines">
      {load.biological.map((read) => (
        <li key={read.entry}>
          <div className="grow">
            <strong>
              <Why of={{ title: indicators.biological, value: growth[read.result], entry: read.entry }}>
                {growth[read.result]}
              </Why>
            </strong>
            , {read.lot}, {indicators.incubated(read.incubatedHours, read.makersHours)},{' '}
            {read.control === null ? indicators.noControl : indicators.controlSays(growth[read.control.result])},{' '}
            {times.moment(read.at)}
          </div>
        </li>
      ))}
    </ul>
  )
}
