import type { SetKnown } from '#road/catalogue/fold.ts'
import { useNames } from '../../components/Named.tsx'
import { words } from '../../words/words.ts'

export type Counted = Readonly<Record<string, number>>

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
          {sheet.map((line) => {
            const count = counted[line.device] ?? 0
            const name = deviceName(line.device)
            return (
              <tr key={line.device}>
                <th scope="row">{name}</th>
                <td>{line.count}</td>
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
                    <span className="small">{difference(line.count - count)}</span>
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

function difference(missing: number): string {
  if (missing === 0) return words.wash.packing.fits
  return missing > 0 ? words.wash.packing.missing(missing) : words.wash.packing.tooMany(-missing)
}
