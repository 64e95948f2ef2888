import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { type SoilAnalyte, soilLimits } from '#road/cleaning/cleaning-test-limits.ts'
import { soilOutcome } from '#road/cleaning/cleaning-test.ts'
import {
  type CleaningTrend,
  cleaningTrends,
  type TrendGroup,
  type TrendGrouping,
} from '#road/cleaning/cleaning-trend.ts'
import { knownQuery } from '../../api/queries.ts'
import { CleaningChart } from '../../charts/CleaningChart.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { LimitLine } from '../../components/LimitLine.tsx'
import { useNames } from '../../components/Named.tsx'
import { Table } from '../../components/Table.tsx'
import { usePolicy } from '../../components/use-policy.ts'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'

/** Tests of cleaning over time, by washer or by instrument, against their levels. */
export function CleaningTrends() {
  const w = words.water.trend
  const [open, setOpen] = useState(false)
  return (
    <details className="sheet" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{w.title}</summary>
      {open && <Trends />}
    </details>
  )
}

function Trends() {
  const w = words.water.trend
  const policy = usePolicy()
  const { data: washes } = useQuery(knownQuery('wash', ['tested']))
  const [analyte, setAnalyte] = useState<SoilAnalyte>('protein')
  const [by, setBy] = useState<TrendGrouping>('washer')
  const [only, setOnly] = useState<TrendGroup | ''>('')
  const nameOf = useGroupNames()
  if (washes === undefined) return <p className="soft">{words.loading}</p>
  const states = washes.map((row) => row.state)
  const trends = cleaningTrends(states, analyte, by, policy)
  const shown = trends.find((trend) => trend.group === only) ?? trends[0]
  return (
    <section className="stack" aria-label={w.title}>
      <p className="soft">{w.lead}</p>
      <div className="pair">
        <SelectField
          label={w.analyte}
          value={analyte}
          options={optionsOf(words.water.analytes)}
          onChange={setAnalyte}
        />
        <SelectField label={w.by} value={by} options={optionsOf(w.groupings)} onChange={setBy} />
      </div>
      {shown === undefined ? (
        <p>{w.none}</p>
      ) : (
        <>
          {trends.length > 1 && (
            <SelectField
              label={w.only}
              value={shown.group}
              options={trends.map(({ group }) => ({ value: group, label: nameOf(group) }))}
              onChange={setOnly}
            />
          )}
          <CleaningChart analyte={analyte} tests={shown.tests} group={nameOf(shown.group)} policy={policy} />
          <TrendTable trends={trends} analyte={analyte} heading={w.groupings[by]} nameOf={nameOf} />
        </>
      )}
      <LimitLine id={soilLimits[analyte].alert.id} />
      <LimitLine id={soilLimits[analyte].action.id} />
    </section>
  )
}

interface TableProps {
  readonly trends: readonly CleaningTrend[]
  readonly analyte: SoilAnalyte
  readonly heading: string
  readonly nameOf: (group: TrendGroup) => string
}

function TrendTable({ trends, analyte, heading, nameOf }: TableProps) {
  const w = words.water.trend
  const times = useTimes()
  const policy = usePolicy()
  const { unit } = soilLimits[analyte]
  return (
    <Table>
      <thead>
        <tr>
          <th scope="col">{heading}</th>
          <th scope="col">{w.last}</th>
          <th scope="col">{`${w.highest}, ${unit}`}</th>
          <th scope="col">{w.tests}</th>
          <th scope="col">{w.alerts}</th>
          <th scope="col">{w.actions}</th>
        </tr>
      </thead>
      <tbody>
        {trends.map(({ group, tests, last, highest, alerts, actions }) => (
          <tr key={group}>
            <th scope="row">{nameOf(group)}</th>
            <td>
              <strong>{words.water.outcomes[soilOutcome(last, policy)]}</strong>:{' '}
              <Why of={{ title: words.water.analytes[analyte], value: `${last.value} ${unit}`, entry: last.entry }}>
                {last.value} {unit}
              </Why>
              , {times.moment(last.at)}
            </td>
            <td>{highest}</td>
            <td>{tests.length}</td>
            <td>{alerts}</td>
            <td>{actions}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}

function useGroupNames(): (group: TrendGroup) => string {
  const machine = useNames('machine')
  const device = useNames('device')
  const { manual, notStated } = words.water.trend
  return (group) => {
    if (group === 'manual') return manual
    if (group === 'notStated') return notStated
    return group.startsWith('machine:') ? machine(group) : device(group)
  }
}
