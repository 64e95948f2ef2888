import { useState } from 'react'
import { planChanges } from '#workings/planning/plan-changes.ts'
import { PlanPicture } from '../../charts/PlanPicture.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { Table } from '../../components/Table.tsx'
import { words } from '../../words/words.ts'
import { Sentences } from './OwnOrder.tsx'
import type { PlanName, ShownPlan } from './plan-view.ts'

/** Two plans side by side: what changes from one to the other, what each counts, and each as a picture. */
export function Compare({ plans }: { readonly plans: readonly ShownPlan[] }) {
  const [left, setLeft] = useState<PlanName | ''>('')
  const [right, setRight] = useState<PlanName | ''>('')
  const w = words.list.compare
  const one = plans.find(({ name }) => name === left) ?? plans[0]
  const other = plans.find(({ name }) => name === right) ?? plans.find(({ name }) => name !== one?.name)
  if (one === undefined || other === undefined)
    return (
      <section className="stack" aria-label={w.title}>
        <h2>{w.title}</h2>
        <p className="soft">{w.noOther}</p>
      </section>
    )
  const options = plans.map(({ name }) => ({ value: name, label: w.names[name] }))
  const changes = planChanges(one.cases, other.cases)
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <div className="pair">
        <SelectField label={w.left} value={one.name} options={options} onChange={setLeft} />
        <SelectField label={w.right} value={other.name} options={options} onChange={setRight} />
      </div>
      <Numbers one={one} other={other} />
      <h3>{w.changes(w.names[one.name], w.names[other.name])}</h3>
      {changes.length === 0 ? <p>{w.same}</p> : <Sentences all={changes.map(({ says }) => says)} />}
      <div className="halves">
        {[one, other].map((plan, side) => (
          <section key={`${side} ${plan.name}`} className="stack" aria-label={w.names[plan.name]}>
            <h3>{w.names[plan.name]}</h3>
            {plan.broken.length > 0 && <Sentences all={plan.broken} />}
            {plan.chart !== null && (
              <PlanPicture name={w.names[plan.name]} chart={{ ...plan.chart, sets: [], machines: [] }} binding={null} />
            )}
          </section>
        ))}
      </div>
    </section>
  )
}

const goals = ['inversions', 'overtime', 'occupied'] as const

function Numbers({ one, other }: { readonly one: ShownPlan; readonly other: ShownPlan }) {
  const w = words.list.compare
  const both = one.objective !== null && other.objective !== null
  return (
    <Table>
      <caption>{words.list.goals.title}</caption>
      <thead>
        <tr>
          <th scope="col">{words.list.goals.measure}</th>
          <th scope="col" className="number">
            {w.names[one.name]}
          </th>
          <th scope="col" className="number">
            {w.names[other.name]}
          </th>
          <th scope="col" className="number">
            {w.difference}
          </th>
        </tr>
      </thead>
      <tbody>
        {goals.map((goal) => {
          const difference = both ? (other.objective?.[goal] ?? 0) - (one.objective?.[goal] ?? 0) : null
          return (
            <tr key={goal}>
              <th scope="row">{words.list.goals[goal]}</th>
              <td className="number">{one.objective?.[goal] ?? w.notKnown}</td>
              <td className="number">{other.objective?.[goal] ?? w.notKnown}</td>
              <td className="number">
                {difference === null ? w.notKnown : `${difference > 0 ? '+' : ''}${difference}`}
              </td>
            </tr>
          )
        })}
      </tbody>
    </Table>
  )
}
