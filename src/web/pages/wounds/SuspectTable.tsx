import { Link } from 'react-router'
import { parseSubject } from '#road/subject.ts'
import type { Suspects } from '#service/api-types.ts'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { nameOfExposure } from './name-of-exposure.ts'
import { RecallSteps } from './RecallSteps.tsx'
import { shownP } from './shown-p.ts'
import { resultOfSample } from './result-of-sample.ts'

type Row = Suspects['ranking']['ranked'][number]

const share = (infected: number, others: number): string => words.wounds.rates.of(infected, infected + others)

/** The first of the ranking with their figures, each figure opening what it came from. */
export function SuspectTable({ suspects, rows }: { readonly suspects: Suspects; readonly rows: readonly Row[] }) {
  const w = words.wounds.suspects
  return (
    <Table>
      <caption>{w.title}</caption>
      <thead>
        <tr>
          <th scope="col">{w.rank}</th>
          <th scope="col">{w.exposure}</th>
          <th scope="col">{w.exposed}</th>
          <th scope="col">{w.unexposed}</th>
          <th scope="col">{w.odds}</th>
          <th scope="col">{w.p}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <SuspectRow key={row.rank} row={row} suspects={suspects} />
        ))}
      </tbody>
    </Table>
  )
}

interface RowProps {
  readonly row: Row
  readonly suspects: Suspects
}

function SuspectRow({ row, suspects }: RowProps) {
  return (
    <tr>
      <td>{row.rank}</td>
      <th scope="row">
        <SuspectName row={row} suspects={suspects} />
      </th>
      <td>{share(row.casesExposed, row.nonCasesExposed)}</td>
      <td>{share(row.casesUnexposed, row.nonCasesUnexposed)}</td>
      <td>
        <Odds row={row} />
      </td>
      <td>
        <Chance row={row} suspects={suspects} />
      </td>
    </tr>
  )
}

function SuspectName({ row, suspects: { titles, recalls, samples } }: RowProps) {
  const w = words.wounds.suspects
  const subject = row.id === null ? undefined : parseSubject(row.id)
  const name = nameOfExposure(row, titles)
  const way = row.id === null ? { recalls: [], without: 'process' as const } : recalls[`${row.type} ${row.id}`]
  const own = samples.filter((sample) => row.id !== null && sample.from === row.id)
  const because = w.recallWhy(
    name,
    share(row.casesExposed, row.nonCasesExposed),
    share(row.casesUnexposed, row.nonCasesUnexposed),
  )
  return (
    <>
      {name}{' '}
      {subject !== undefined && (
        <Link className="no-print" to={paths.traceOf(subject)}>
          {w.look}
        </Link>
      )}
      {way !== undefined && <RecallSteps way={way} because={because} name={name} />}
      {row.findings.length > 0 && (
        <div className="small">
          {w.against}: {row.findings.join('; ')}
        </div>
      )}
      {own.length > 0 && (
        <div className="small">
          {w.sampled}: {own.map((sample) => `${sample.where}, ${resultOfSample(sample)}`).join('; ')}
        </div>
      )}
    </>
  )
}

function Odds({ row }: { readonly row: Row }) {
  const w = words.wounds.suspects
  const [low, high] = row.oddsRatioLimits
  const upper = typeof high === 'number' ? high.toFixed(1) : w.endless
  const odds = row.oddsRatio === null ? '—' : typeof row.oddsRatio === 'number' ? row.oddsRatio.toFixed(1) : w.boundless
  const value = `${odds} (${low.toFixed(1)} – ${upper})`
  return (
    <Why
      of={{
        title: w.oddsTitle,
        value,
        says: w.table(row.casesExposed, row.nonCasesExposed, row.casesUnexposed, row.nonCasesUnexposed),
        inputs: w.strata(row.why.input.strata.map((cells) => cells.join(', '))),
        working: row.why.working,
      }}
    >
      {value}
    </Why>
  )
}

function Chance({ row, suspects: { ranking, asked } }: RowProps) {
  const w = words.wounds.suspects
  return (
    <Why
      of={{
        title: w.pTitle,
        value: w.pValue(row.familyWiseP.toPrecision(2), row.familyWiseError.toPrecision(1), row.p.toPrecision(2)),
        inputs: w.pInputs(ranking.infected, ranking.cases, ranking.compared, asked.permutations, ranking.strata),
        working: 'exposure-ranking',
      }}
    >
      {shownP(row.familyWiseP)}
    </Why>
  )
}
