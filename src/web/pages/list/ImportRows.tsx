import type { ListPreviewRow } from '#service/api-types.ts'
import { Table } from '../../components/Table.tsx'
import { SubjectLink } from '../../components/SubjectLink.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

/** More lines than these make a cheap tablet slow; those that change something come first. */
const shownRows = 300

/** What each line of a list comes to: those that would be recorded or cannot be read first. */
export function ImportRows({ rows }: { readonly rows: readonly ListPreviewRow[] }) {
  const w = words.listImport
  const quiet = new Set(['same', 'older', 'replaced'])
  const order = [...rows.filter(({ act }) => !quiet.has(act)), ...rows.filter(({ act }) => quiet.has(act))]
  return (
    <Table>
      <thead>
        <tr>
          {Object.values(w.table).map((heading) => (
            <th key={heading} scope="col">
              {heading}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {order.slice(0, shownRows).map((row) => (
          <Line key={`${row.line} ${row.ref ?? ''}`} row={row} />
        ))}
      </tbody>
    </Table>
  )
}

function Line({ row }: { readonly row: ListPreviewRow }) {
  const w = words.listImport
  const times = useTimes()
  const { before, after } = row
  const booking = after ?? before
  // What is as it was needs no second telling.
  const was = (old: string | undefined, now: string | undefined) =>
    row.act !== 'cancel' && old !== undefined && old !== now ? <div className="small soft">{w.was(old)}</div> : null
  return (
    <tr>
      <td>{row.line}</td>
      <td>
        <strong>{w.acts[row.act]}</strong>
      </td>
      <td>
        {row.case !== null && before !== null ? <SubjectLink id={row.case} /> : <span className="key">{row.ref}</span>}
      </td>
      <td>
        {booking !== null && times.moment(booking.plannedAt)}
        {before !== null &&
          was(times.moment(before.plannedAt), (booking && times.moment(booking.plannedAt)) || undefined)}
      </td>
      <td>
        {booking?.theatre}
        {was(before?.theatre, booking?.theatre)}
      </td>
      <td>
        {booking?.procedure}
        {was(before?.procedure, booking?.procedure)}
      </td>
      <td>{booking !== null && <SubjectLink id={booking.surgeon} />}</td>
      <td>{row.says.join('; ')}</td>
    </tr>
  )
}
