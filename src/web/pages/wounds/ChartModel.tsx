import { useState } from 'react'
import { riskFactors } from '#road/wounds/surveillance/entries.ts'
import type { ChartAnswer } from '#service/api-types.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { TextField } from '../../components/Fields.tsx'
import { Table } from '../../components/Table.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** The model that the unit's own record gives, how it would have forecast, and what keeps it. */
export function ChartModel({ answer: { chart, fitted } }: { readonly answer: ChartAnswer }) {
  const times = useTimes()
  const w = words.wounds.chart
  const [why, setWhy] = useState('')
  const [today] = useState(() => new Date().toISOString().slice(0, 10))
  return (
    <section className="stack">
      <h2>{w.model}</h2>
      <p className="soft">{w.modelSays}</p>
      {chart.model !== null && <p>{w.modelKept(times.day(chart.model.until))}</p>}
      {fitted === null || Object.keys(fitted.coefficients).length === 0 ? (
        <p>{w.modelNone}</p>
      ) : (
        <>
          <Table>
            <caption className="unseen">{w.model}</caption>
            <thead>
              <tr>
                <th scope="col">{w.factor}</th>
                <th scope="col">{w.odds}</th>
              </tr>
            </thead>
            <tbody>
              {riskFactors.flatMap((factor) => {
                const coefficient = fitted.coefficients[factor]
                return coefficient === undefined
                  ? []
                  : [
                      <tr key={factor}>
                        <th scope="row">{w.factors[factor]}</th>
                        <td>{Math.exp(coefficient).toFixed(2)}</td>
                      </tr>,
                    ]
              })}
            </tbody>
          </Table>
          <Table>
            <caption className="unseen">{w.group}</caption>
            <thead>
              <tr>
                <th scope="col">{w.group}</th>
                <th scope="col">{w.forecast}</th>
                <th scope="col">{w.seen}</th>
              </tr>
            </thead>
            <tbody>
              {fitted.calibration.map((group, index) => (
                <tr key={`${index}-${group.operations}`}>
                  <th scope="row">{index + 1}</th>
                  <td>{group.forecast.toFixed(1)}</td>
                  <td>{group.seen}</td>
                </tr>
              ))}
            </tbody>
          </Table>
          <details>
            <summary>{w.modelKeep}</summary>
            <EntryForm
              kind="risk-model-kept"
              judged
              body={
                why.length < 5
                  ? null
                  : {
                      chart: chart.id,
                      method: 'firth',
                      intercept: fitted.intercept,
                      coefficients: { ...fitted.coefficients },
                      operations: fitted.operations,
                      infections: fitted.infections,
                      until: today,
                      longOperationMinutes: fitted.longOperationMinutes,
                      why,
                    }
              }
              action={w.modelKeep}
            >
              <TextField label={w.why} value={why} minLength={5} onChange={setWhy} />
            </EntryForm>
          </details>
        </>
      )}
    </section>
  )
}
