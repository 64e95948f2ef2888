import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { PlanOfDay, SimulationOfDay } from '#service/api-types.ts'
import { simulationQuery } from '../../api/plan-queries.ts'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { Table } from '../../components/Table.tsx'
import { clockOf } from '../../words/clock-of.ts'
import { words } from '../../words/words.ts'
import { Sentences } from './OwnOrder.tsx'

/** The chances of the best plan, and what one more set, machine or hand would save. Asked for, since it takes long. */
export function Chances({ day }: { readonly day: PlanOfDay }) {
  const client = useQueryClient()
  const [asked, setAsked] = useState(false)
  const question = simulationQuery(day.day, asked)
  const answer = useQuery(question)
  const w = words.list.chances
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <p className="soft">{w.says}</p>
      <div className="row no-print">
        {answer.isFetching ? (
          <>
            <output>{w.running}</output>
            <button
              type="button"
              onClick={() => {
                setAsked(false)
                void client.cancelQueries({ queryKey: question.queryKey })
              }}
            >
              {w.stop}
            </button>
          </>
        ) : (
          <button type="button" onClick={() => (asked ? void answer.refetch() : setAsked(true))}>
            {w.do}
          </button>
        )}
      </div>
      {answer.error && <ProblemNote error={answer.error} />}
      {answer.data && <Answer day={day} answer={answer.data} />}
    </section>
  )
}

interface Props {
  readonly day: PlanOfDay
  readonly answer: SimulationOfDay
}

function Answer({ day, answer }: Props) {
  const { simulated, savings, withoutSpread } = answer
  const w = words.list.chances
  if (simulated === null) return <p>{w.none}</p>
  const { onTime, overtime, lateStarts } = simulated
  const late = simulated.lateSets.filter(({ share }) => share > 0).toSorted((a, b) => b.share - a.share)
  return (
    <>
      <dl className="facts list-facts">
        <dt>{w.onTime}</dt>
        <dd>{percent(onTime)}</dd>
        <dt>{w.overtime}</dt>
        <dd>{meanText(overtime)}</dd>
        <dt>{w.lateStarts}</dt>
        <dd>{meanText(lateStarts)}</dd>
      </dl>
      <p className="small soft">{w.errors}</p>
      {withoutSpread.length > 0 && <p className="small soft">{w.noSpread(withoutSpread.join(', '))}</p>}
      <Ends simulated={simulated} />
      <h3>{w.lateSets}</h3>
      {late.length === 0 ? (
        <p>{w.noLateSets}</p>
      ) : (
        <Sentences
          all={late.map(({ type, unit, case: one, ...chance }) => {
            const name = day.units.find((each) => each.type === type)?.sets[unit]?.name ?? `${type} ${unit + 1}`
            return w.lateSet(name, one, percent(chance))
          })}
        />
      )}
      {savings.length === 0 ? <p className="soft">{w.noSavings}</p> : <Savings savings={savings} />}
    </>
  )
}

function Ends({ simulated }: { readonly simulated: NonNullable<SimulationOfDay['simulated']> }) {
  const w = words.list.chances
  return (
    <Table>
      <caption>{w.ends}</caption>
      <thead>
        <tr>
          <th scope="col">{w.theatre}</th>
          <th scope="col">{w.mean}</th>
          <th scope="col">{w.p90}</th>
        </tr>
      </thead>
      <tbody>
        {simulated.ends.map(({ theatre, mean, p90 }) => (
          <tr key={theatre}>
            <th scope="row">{theatre}</th>
            <td>{clockOf(Math.round(mean))}</td>
            <td>{clockOf(Math.round(p90))}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}

function Savings({ savings }: Pick<SimulationOfDay, 'savings'>) {
  const w = words.list.chances
  const most = Math.max(1, ...savings.map(({ minutes }) => Math.abs(minutes.mean) + 2 * minutes.standardError))
  return (
    <Table>
      <caption>{w.savings}</caption>
      <thead>
        <tr>
          <th scope="col">{w.what}</th>
          <th scope="col">{w.minutes}</th>
          <th scope="col">{w.warning}</th>
        </tr>
      </thead>
      <tbody>
        {savings.map(({ kind, what, says, minutes, warning }) => (
          <tr key={`${kind} ${what}`}>
            <th scope="row">{says}</th>
            <td>
              {meanText(minutes)} <ErrorBar what={says} minutes={minutes} most={most} />
            </td>
            <td>{warning ?? w.proven}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}

interface BarProps {
  readonly what: string
  readonly minutes: { readonly mean: number; readonly standardError: number }
  readonly most: number
}

/** The mean as a dot with two standard errors on either side; the upright line is no saving. */
function ErrorBar({ what, minutes: { mean, standardError }, most }: BarProps) {
  const x = (value: number): number => 60 + (value / most) * 58
  const from = mean - 2 * standardError
  const to = mean + 2 * standardError
  return (
    <svg
      className="error-bar"
      viewBox="0 0 120 18"
      role="img"
      aria-label={words.list.chances.picture(what, from.toFixed(1), to.toFixed(1))}
      stroke="currentColor"
      fill="currentColor"
    >
      <line x1={60} x2={60} y1={0} y2={18} strokeDasharray="2 2" />
      <line x1={x(from)} x2={x(to)} y1={9} y2={9} />
      <line x1={x(from)} x2={x(from)} y1={5} y2={13} />
      <line x1={x(to)} x2={x(to)} y1={5} y2={13} />
      <circle cx={x(mean)} cy={9} r={3.5} />
    </svg>
  )
}

function meanText({ mean, standardError }: { readonly mean: number; readonly standardError: number }): string {
  return words.list.chances.withError(mean.toFixed(1), standardError.toFixed(1))
}

function percent({ share, standardError }: { readonly share: number; readonly standardError: number }): string {
  return words.list.chances.withError(`${(share * 100).toFixed(1)} %`, `${(standardError * 100).toFixed(1)} %`)
}
