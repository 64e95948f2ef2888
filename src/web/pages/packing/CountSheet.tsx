import type { SetKnown } from '#road/catalogue/fold.ts'
import { countAgainstSheet } from '#road/packing/count-against-sheet.ts'
import type { SubjectId } from '#road/subject.ts'
import { useNames } from '../../components/Named.tsx'
import { words } from '../../words/words.ts'

type DeviceId = SubjectId<'device'>
export type Counted = Readonly<Record<DeviceId, number>>

/** Every device of the sheet with its count, and every substitute that was put in. */
export function countedLines(sheet: SetKnown['countSheet'], counted: Counted) {
  const own = new Set(sheet.map((line) => line.device))
  const others = new Set(sheet.flatMap((line) => line.substitutes ?? []))
  return [
    ...[...own].map((device) => ({ device, count: counted[device] ?? 0 })),
    ...[...others]
      .filter((device) => !own.has(device) && (counted[device] ?? 0) > 0)
      .map((device) => ({ device, count: counted[device] ?? 0 })),
  ]
}

interface Props {
  readonly sheet: SetKnown['countSheet']
  readonly counted: Counted
  readonly onChange: (counted: Counted) => void
}

/** Nothing is counted beforehand; the whole sheet can be taken as counted by one deliberate press. */
export function CountSheet({ sheet, counted, onChange }: Props) {
  const deviceName = useNames('device')
  const p = words.wash.packing
  return (
    <div className="stack">
      <table>
        <caption>{p.countSheet}</caption>
        <thead>
          <tr>
            <th scope="col">{p.device}</th>
            <th scope="col">{p.wanted}</th>
            <th scope="col">{p.counted}</th>
          </tr>
        </thead>
        <tbody>
          {rowsOf(sheet, counted).map((line) => {
            const count = counted[line.device] ?? 0
            const name = deviceName(line.device)
            return (
              <tr key={line.key}>
                <th scope="row">{line.instead === null ? name : p.instead(name, deviceName(line.instead))}</th>
                <td>{line.instead === null ? line.count : ''}</td>
                <td>
                  <div className="row">
                    <input
                      type="number"
                      min={0}
                      style={{ width: '5rem' }}
                      aria-label={p.counting(name)}
                      value={count}
                      onChange={(event) => onChange({ ...counted, [line.device]: event.target.valueAsNumber || 0 })}
                    />
                    {line.instead === null && <span className="small">{difference(line.missing)}</span>}
                  </div>
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
      <div>
        <button
          type="button"
          onClick={() => onChange(Object.fromEntries(sheet.map((line) => [line.device, line.count])))}
        >
          {p.countAll}
        </button>
      </div>
    </div>
  )
}

/** Each line of the sheet; under one that is short, what may stand in for it. */
function rowsOf(sheet: SetKnown['countSheet'], counted: Counted) {
  return countAgainstSheet(sheet, asMap(counted)).flatMap(({ line, here }) => {
    const { device, count, substitutes = [] } = line
    const first = { key: device as string, device, count, missing: count - here, instead: null }
    const shown = substitutes.filter((each) => (counted[device] ?? 0) < count || (counted[each] ?? 0) > 0)
    return [first, ...shown.map((each) => ({ ...first, key: `${device} ${each}`, device: each, instead: device }))]
  })
}

function asMap(counted: Counted): ReadonlyMap<DeviceId, number> {
  return new Map(Object.entries(counted) as [DeviceId, number][])
}

function difference(missing: number): string {
  if (missing === 0) return words.wash.packing.fits
  return missing > 0 ? words.wash.packing.missing(missing) : words.wash.packing.tooMany(-missing)
}
