import type { ReactNode } from 'react'
import type { CycleReport } from '#road/sterilising/entries.ts'
import { Table } from '../../components/Table.tsx'
import { WeightMark } from '../../components/WeightMark.tsx'
import { Why } from '../../components/Why.tsx'
import { words } from '../../words/words.ts'

interface Props {
  readonly report: CycleReport
  /** Set once the cycle is recorded. */
  readonly entry?: string
}

/** What the reader made of the cycle: the verdict, its figures, every criterion, what was seen in the log. */
export function Verdict({ report, entry }: Props) {
  const w = words.machines.verdict
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="row">
        <span className={report.verdict === 'met' ? 'tag good' : 'tag stop'} style={{ fontSize: '1.2rem' }}>
          {words.machines.verdicts[report.verdict]}
        </span>
        <span>{w.says}</span>
      </p>
      <Figures report={report} entry={entry} />
      <CriteriaTable report={report} entry={entry} />
      {report.findings.length > 0 && (
        <ul className="plain findings" aria-label={w.findings}>
          {report.findings.map((finding) => (
            <li key={`${finding.rule} ${finding.says}`} className={`weighs-${finding.weight}`}>
              <WeightMark weight={weightOf(finding.weight)} />
              <p>
                <strong>{words.finding.weights[weightOf(finding.weight)]}. </strong>
                {finding.says}
              </p>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}

type Weight = keyof typeof words.finding.weights

function weightOf(weight: string): Weight {
  return weight in words.finding.weights ? (weight as Weight) : 'note'
}

/** A gas cycle or dry heat has an exposure, and neither an equilibration nor saturated steam. */
function ofGas(report: CycleReport): boolean {
  return report.criteria.some(({ id }) => id === 'exposure' || id === 'complete')
}

interface FigureProps {
  readonly report: CycleReport
  readonly entry: string | undefined
}

function Figures({ report, entry }: FigureProps) {
  const w = words.machines.verdict
  const isGas = ofGas(report)
  const figure = (title: string, value: number | null, unit: string, says?: string): ReactNode => {
    const text = value === null ? w.none : `${Math.round(value * 100) / 100} ${unit}`
    return (
      <div key={title}>
        <dt className="small soft">{title}</dt>
        <dd style={{ margin: 0, fontSize: '1.2rem' }}>
          <Why of={{ title, value: text, says, working: isGas ? 'gas-cycle' : 'steam-cycle', entry }}>{text}</Why>
        </dd>
      </div>
    )
  }
  return (
    <dl className="row" style={{ gap: '1rem 2.5rem', margin: 0 }}>
      {figure(isGas ? w.exposure : w.holding, report.holdingSeconds, 's')}
      {!isGas && figure(w.equilibration, report.equilibrationSeconds, 's')}
      {report.fReferenceC !== null &&
        report.zK !== null &&
        figure(w.f, report.fMinutes, 'min', w.fSays(report.fReferenceC, report.zK))}
      {figure(isGas ? w.coldest : w.min, report.minC, '°C')}
      {figure(isGas ? w.warmest : w.max, report.maxC, '°C')}
      {!isGas && figure(w.spread, report.maxSpreadK, 'K')}
    </dl>
  )
}

function CriteriaTable({ report, entry }: FigureProps) {
  const w = words.machines.verdict
  return (
    <Table>
      <thead>
        <tr>
          <th scope="col">{w.criterion}</th>
          <th scope="col">{w.result}</th>
          <th scope="col">{w.measured}</th>
          <th scope="col">{w.limit}</th>
        </tr>
      </thead>
      <tbody>
        {report.criteria.map((criterion) => {
          const title = words.machines.criteria[criterion.id] ?? criterion.id
          return (
            <tr key={criterion.id}>
              <th scope="row">{title}</th>
              <td>
                <strong>{words.machines.verdicts[criterion.result]}</strong>
              </td>
              <td>{criterion.measured ?? w.none}</td>
              <td>
                <Why
                  of={{
                    title,
                    value: criterion.measured ?? w.none,
                    limit: criterion.limit ?? undefined,
                    working: ofGas(report) ? 'gas-cycle' : 'steam-cycle',
                    source: criterion.source,
                    entry,
                  }}
                >
                  {criterion.limit ?? w.none}
                </Why>
              </td>
            </tr>
          )
        })}
      </tbody>
    </Table>
  )
}
