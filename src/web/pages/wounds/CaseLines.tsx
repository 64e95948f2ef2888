import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { CaseLine } from '#service/api-types.ts'
import { linesQuery } from '../../api/wound-queries.ts'
import { Loaded } from '../../components/Loaded.tsx'
import { Table } from '../../components/Table.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { RiskIndexWhy } from './RiskIndexWhy.tsx'

const shown = 100

/** The operations behind the rates, the newest first, read only when somebody opens the list. */
export function CaseLines({ days }: { readonly days: number }) {
  const [open, setOpen] = useState(false)
  const w = words.wounds.risk
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{w.lines}</summary>
      {open && <Lines days={days} />}
    </details>
  )
}

function Lines({ days }: { readonly days: number }) {
  const w = words.wounds.risk
  return (
    <Loaded query={useQuery(linesQuery(days))}>
      {(lines) => (
        <div className="stack">
          <p className="soft">
            {w.linesSays} {lines.length > shown && w.of(shown, lines.length)}
          </p>
          <Table>
            <caption className="unseen">{w.lines}</caption>
            <thead>
              <tr>
                <th scope="col">{w.day}</th>
                <th scope="col">{w.operation}</th>
                <th scope="col">{w.index}</th>
                <th scope="col">{w.guarded}</th>
                <th scope="col">{w.outcome}</th>
              </tr>
            </thead>
            <tbody>
              {lines
                .toReversed()
                .slice(0, shown)
                .map((line) => (
                  <LineRow key={line.case} line={line} />
                ))}
            </tbody>
          </Table>
        </div>
      )}
    </Loaded>
  )
}

function LineRow({ line }: { readonly line: CaseLine }) {
  const times = useTimes()
  const w = words.wounds.risk
  const { infection, preventionTold } = line
  return (
    <tr>
      <th scope="row">
        <Link to={paths.oneCase(line.case)}>{times.date(line.day)}</Link>
      </th>
      <td>{line.procedure}</td>
      <td>
        <RiskIndexWhy line={line} />
      </td>
      <td>{w.of(preventionTold.told, preventionTold.asked)}</td>
      <td>
        {infection === null
          ? w.well
          : w.infected(words.theatre.depths[infection.depth].toLowerCase(), infection.onsetDays)}
        {infection !== null && !infection.counted && `, ${w.late}`}
      </td>
    </tr>
  )
}
