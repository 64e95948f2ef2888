import { useState } from 'react'
import { Link } from 'react-router'
import type { PlanOfDay } from '#service/api-types.ts'
import { SelectField } from '../../components/Fields.tsx'
import { useStore } from '../../session/use-store.ts'
import { whoStore } from '../../session/who.ts'
import { paths } from '../../paths.ts'
import { clockOf } from '../../words/clock-of.ts'
import { words } from '../../words/words.ts'
import { lengthsOf, type ShownPlan } from './plan-view.ts'

/** One surgeon's cases with their times: of who is working, when it is a surgeon of this day. */
export function SurgeonList({ day, shown }: { readonly day: PlanOfDay; readonly shown: ShownPlan }) {
  const who = useStore(whoStore)
  const [chosen, setChosen] = useState('')
  const w = words.list.mine
  const lengths = lengthsOf(day)
  const keys = new Map(day.instance?.cases.map((one) => [one.id, one.surgeon]))
  const names = new Map(day.cases.map((one) => [keys.get(one.id) ?? '', one.surgeonName]))
  const own = who === null ? '' : who.slice(who.indexOf(':') + 1)
  const key = chosen !== '' ? chosen : names.has(own) ? own : ([...names.keys()][0] ?? '')
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
