import { isSubjectOf, subjectKey } from '#road/subject.ts'
import { Link } from 'react-router'
import type { RecallAnswer } from '#service/api-types.ts'
import { Table } from '../../components/Table.tsx'
import { Why } from '../../components/Why.tsx'
import { pathOf } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

export function RecallLoads({ answer }: { readonly answer: RecallAnswer }) {
  const times = useTimes()
  const w = words.trace.recall
  const ofLot = isSubjectOf('lot', answer.failed)
  if (ofLot && answer.loads.length === 0) return null
  return (
    <Table>
      <caption>
        {ofLot ? w.usedFor : w.loads} ({answer.loads.length})
      </caption>
      <thead>
        <tr>
          <th scope="col">{ofLot ? w.use : w.load}</th>
          <th scope="col">{w.ranAt}</th>
          <th scope="col">{w.duty}</th>
          <th scope="col">{w.why}</th>
        </tr>
      </thead>
      <tbody>
        {answer.loads.map((row) => (
          <tr key={row.load}>
            <th scope="row">
              <Link to={pathOf(row.load)}>{subjectKey(row.load)}</Link>
            </th>
            <td>{times.moment(row.at)}</td>
            <td>
              <span className={row.duty === 'cleared' ? 'tag' : 'tag stop'}>{words.trace.duties[row.duty]}</span>
            </td>
            <td>
              <Why of={{ title: words.trace.duties[row.duty], says: row.why, source: row.source }}>{row.why}</Why>
            </td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}
