import { useState } from 'react'
import { Link } from 'react-router'
import type { PlanOfDay } from '#service/api-types.ts'
import { SelectField } from '../../components/Fields.tsx'
import { paths } from '../../paths.ts'
import { clockOf } from '../../words/clock-of.ts'
import { words } from '../../words/words.ts'
import { lengthsOf, type ShownPlan } from './plan-view.ts'

interface Props {
  readonly day: PlanOfDay
  readonly shown: ShownPlan
  /** Whose list is shown before somebody is chosen; the first surgeon of the day when it is nobody's own. */
  readonly own: string | null
}

/** One surgeon’s cases with their times. */
export function SurgeonList({ day, shown, own }: Props) {
  const [chosen, setChosen] = useState('')
  const w = words.list.mine
  const lengths = lengthsOf(day)
  const keys = new Map(day.instance?.cases.map((one) => [one.id, one.surgeon]))
  const names = new Map(day.cases.map((one) => [keys.get(one.id) ?? '', one.surgeonName]))
  const key = chosen === '' ? (own ?? [...names.keys()][0] ?? '') : chosen
  const rows = day.cases
    .flatMap((one) => {
      const at = shown.cases[one.id]
      return keys.get(one.id) === key && at !== undefined
        ? [{ one, ...at, end: at.start + (lengths.get(one.id) ?? 0) }]
        : []
    })
    .toSorted((a, b) => a.start - b.start)
  return (
    <section className="stack" aria-label={w.title}>
      <h2>{w.title}</h2>
      <SelectField
        label={w.who}
        value={key}
        options={[...names].map(([value, label]) => ({ value, label }))}
        onChange={setChosen}
      />
      {rows.length === 0 && <p className="soft">{w.none}</p>}
      <ul className="lines">
        {rows.map(({ one, theatre, start, end }) => (
          <li key={one.id}>
            <strong>{w.to(clockOf(start), clockOf(end))}</strong>
            <div className="grow">
              <Link to={paths.oneCase(one.case)}>{one.procedure}</Link>
              <br />
              <span className="soft">
                {theatre}, <span className="key">{one.id}</span>
              </span>
            </div>
          </li>
        ))}
      </ul>
    </section>
  )
}
