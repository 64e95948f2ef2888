import type { ReactNode } from 'react'
import type { RoundKnown, Step } from '#road/round.ts'
import { Named } from '../../components/Named.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { spanText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import './steps.css'

interface Row {
  readonly name: keyof typeof words.round.step
  readonly step: Step<object> | null
  readonly says?: ReactNode
}

/** The steps of a round from top to bottom, with the waits between them. */
export function Steps({ round }: { readonly round: RoundKnown }) {
  const times = useTimes()
  const rows = rowsOf(round, times.day)
  return (
    <section className="stack">
      <h2>{words.round.steps}</h2>
      <ol className="steps">
        {rows.map((row, index) => (
          <StepRow key={row.name} row={row} before={lastBefore(rows, index)} />
        ))}
      </ol>
    </section>
  )
}

function lastBefore(rows: readonly Row[], index: number): Step<object> | null {
  return rows.slice(0, index).findLast((row) => row.step !== null)?.step ?? null
}

function StepRow({ row, before }: { readonly row: Row; readonly before: Step<object> | null }) {
  const times = useTimes()
  const title = words.round.step[row.name]
  if (row.step === null) {
    return (
      <li className="open">
        <span className="soft">
          {title}: {words.round.notYet}
        </span>
      </li>
    )
  }
  const waited = before === null ? 0 : Date.parse(row.step.at) - Date.parse(before.at)
  // What followed at once waited for nothing.
  const wait = waited < 60_000 ? null : spanText(waited)
  return (
    <li>
      <strong>
        <Why of={{ title, value: times.moment(row.step.at), entry: row.step.entry }}>{title}</Why>
      </strong>{' '}
      {times.moment(row.step.at)}, {words.round.by} <Named id={row.step.by} />
      {wait !== null && <span className="soft">, {words.round.after(wait)}</span>}
      {row.says !== undefined && <div>{row.says}</div>}
    </li>
  )
}

function rowsOf(round: RoundKnown, day: (at: string) => string): Row[] {
  const { began, soak, wash, inspection, sealed, load, decision, stored, damage, opened } = round
  const w = words.wash
  const rows: Row[] = [
    { name: 'began', step: began, says: began && words.round.because[began.because] },
    {
      name: 'soak',
      step: soak,
      says: soak && join(solutionText(soak.solution), soak.waterC === null ? '' : words.round.water(soak.waterC)),
    },
    { name: 'wash', step: wash, says: wash && <WashSays wash={wash} /> },
    {
      name: 'inspection',
      step: inspection,
      says:
        inspection &&
        join(
          w.cleanliness[inspection.cleanliness],
          w.works[inspection.function],
          inspection.dry ? w.dry : '',
          inspection.note ?? '',
        ),
    },
    {
      name: 'sealed',
      step: sealed,
      says:
        sealed &&
        join(
          w.wraps[sealed.wrap],
          sealed.insideIndicator === null
            ? ''
            : words.round.inside(sealed.insideIndicator.type, sealed.insideIndicator.lot),
          sealed.massKg === undefined ? '' : words.round.mass(sealed.massKg),
          sealed.implant ? words.round.implant : '',
          sealed.useBefore === undefined ? '' : words.round.usableTo(day(sealed.useBefore)),
        ),
    },
    { name: 'load', step: load, says: load && <SubjectLink id={load.id} /> },
    {
      name: 'decision',
      step: decision,
      says: decision && join(words.standings.round[decision.outcome], decision.why ?? ''),
    },
    { name: 'stored', step: stored, says: stored?.place },
    { name: 'opened', step: opened, says: opened && <SubjectLink id={opened.case} /> },
  ]
  if (damage !== null) rows.push({ name: 'damage', step: damage, says: words.theatre.conditions[damage.condition] })
  return rows
}

function join(...parts: readonly string[]): string {
  return parts.filter((part) => part !== '').join(', ')
}

function WashSays({ wash }: { readonly wash: NonNullable<RoundKnown['wash']> }) {
  const { how } = wash
  if (how.kind === 'manual') return <>{join(words.wash.manual, how.detergent, words.wash.rinses[how.finalRinse])}</>
  return (
    <>
      <Named id={how.machine} />, {how.program},{' '}
      {how.a0Seconds === null ? (
        words.round.a0None
      ) : (
        <Why
          of={{
            title: words.round.a0,
            value: `${how.a0Seconds} s`,
            says: words.round.a0Says,
            working: 'a0',
            inputs: how.coldestChannel,
            entry: wash.entry,
          }}
        >
          A0 {how.a0Seconds} s
        </Why>
      )}
    </>
  )
}

function solutionText(solution: string): string {
  const table: Readonly<Record<string, string>> = words.wash.solutions
  return table[solution] ?? solution
}
