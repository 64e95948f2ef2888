import { Table } from '../../components/Table.tsx'
import { clockOf } from '../../words/clock-of.ts'
import { words } from '../../words/words.ts'
import type { PlanChart } from './plan-view.ts'

/** What the picture shows of sets, machines and turnovers, for who reads rather than sees it. */
export function FactsTable({ chart }: { readonly chart: PlanChart }) {
  const w = words.list.facts
  const { kinds } = words.list.chart
  const needed = chart.sets.filter(({ bars }) => bars.some(({ kind }) => kind === 'use' || kind === 'step'))
  const rows = [...chart.theatres, ...needed, ...chart.machines]
  return (
    <details>
      <summary>{w.title}</summary>
      <Table>
        <thead>
          <tr>
            <th scope="col">{w.row}</th>
            <th scope="col">{w.what}</th>
            <th scope="col">{w.from}</th>
            <th scope="col">{w.to}</th>
            <th scope="col">{w.for}</th>
          </tr>
        </thead>
        <tbody>
          {rows.flatMap(({ row, bars }) =>
            bars.map(({ kind, label, start, end, case: one }) => (
              <tr key={`${row} ${kind} ${label} ${start} ${one ?? ''}`}>
                <th scope="row">{row}</th>
                <td>{kind === 'step' || kind === 'run' ? `${kinds[kind]}: ${label}` : kinds[kind]}</td>
                <td>{clockOf(start)}</td>
                <td>{clockOf(end)}</td>
                <td>{one}</td>
              </tr>
            )),
          )}
        </tbody>
      </Table>
    </details>
  )
}
