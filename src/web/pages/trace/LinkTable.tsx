import { useState } from 'react'
import { Link as RouterLink } from 'react-router'
import type { Link } from '#road/link.ts'
import type { SubjectId } from '#road/subject.ts'
import type { TraceAnswer } from '#service/api-types.ts'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { pathOf } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

const shownAtOnce = 100

/** Every link with the entry that made it, the oldest first. */
export function LinkTable({ trace }: { readonly trace: TraceAnswer }) {
  const [shown, setShown] = useState(shownAtOnce)
  const titles = new Map(trace.nodes.map((node) => [node.subject, node.title]))
  const links = trace.links.toSorted((a, b) => (a.at < b.at ? -1 : 1))
  const w = words.trace
  return (
    <div className="stack">
      <Table>
        <caption>{w.table}</caption>
        <thead>
          <tr>
            <th scope="col">{w.from}</th>
            <th scope="col">{w.relation}</th>
            <th scope="col">{w.to}</th>
            <th scope="col">{w.when}</th>
          </tr>
        </thead>
        <tbody>
          {links.slice(0, shown).map((link) => (
            <LinkRow key={`${link.from} ${link.relation} ${link.to} ${link.entry}`} link={link} titles={titles} />
          ))}
        </tbody>
      </Table>
      {links.length > shown && (
        <div>
          <button type="button" onClick={() => setShown(links.length)}>
            {words.round.andMore(links.length - shown)}
          </button>
        </div>
      )}
    </div>
  )
}

interface RowProps {
  readonly link: Link
  readonly titles: ReadonlyMap<SubjectId, string>
}

function LinkRow({ link, titles }: RowProps) {
  const times = useTimes()
  const relation = words.standings.relations[link.relation]
  return (
    <tr>
      <td>
        <RouterLink to={pathOf(link.from)}>{titles.get(link.from) ?? link.from}</RouterLink>
      </td>
      <td>
        <Why of={{ title: relation, entry: link.entry }}>{relation}</Why>
      </td>
      <td>
        <RouterLink to={pathOf(link.to)}>{titles.get(link.to) ?? link.to}</RouterLink>
      </td>
      <td>{times.moment(link.at)}</td>
    </tr>
  )
}
