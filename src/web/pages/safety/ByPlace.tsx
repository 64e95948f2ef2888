import { exposureMeans } from '#road/gases/room-exposure.ts'
import { Named } from '../../components/Named.tsx'
import { Table } from '../../components/Table.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import type { MeasuredOf } from './exposures.ts'

/** Every place where the air was measured: how often, by whom last, and the highest that was found. */
export function ByPlace({ measured }: { readonly measured: readonly MeasuredOf[] }) {
  const w = words.safety
  const times = useTimes()
  if (measured.length === 0) return null
  const groups = Map.groupBy(measured, ({ exposure }) => `${exposure.place}, ${w.vapours[exposure.figures.vapour]}`)
  return (
    <Table>
      <caption>{w.byPlace}</caption>
      <thead>
        <tr>
          <th scope="col">{w.place}</th>
          <th scope="col" className="number">
            {w.times}
          </th>
          <th scope="col" className="number">
            {w.highestShift}
          </th>
          <th scope="col">{w.last}</th>
        </tr>
      </thead>
      <tbody>
        {[...groups].map(([place, rows]) => (
          <tr key={place}>
            <th scope="row">{place}</th>
            <td className="number">{rows.length}</td>
            <td className="number">
              {w.ppm(Math.max(...rows.map(({ exposure }) => exposureMeans(exposure.figures).shiftPpm)))}
            </td>
            <td>
              {rows[0] !== undefined && (
                <>
                  {times.moment(rows[0].exposure.at)}, <Named id={rows[0].person.id} />
                </>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </Table>
  )
}
