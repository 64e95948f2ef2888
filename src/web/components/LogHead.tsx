import { words } from '../words/words.ts'
import type { LogPreview } from './log-preview.ts'

interface HeadProps {
  readonly preview: LogPreview
  /** What each column is taken for, by its name. */
  readonly readAs: ReadonlyMap<string, string>
}

/** The first lines of a log, with what each column is taken for. */
export function LogHead({ preview, readAs }: HeadProps) {
  const w = words.gas.map
  return (
    <div className="scroll small">
      <table>
        <caption>{w.understood}</caption>
        <thead>
          <tr>
            {preview.header.map((name) => (
              <th key={name} scope="col">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <tr>
            {preview.header.map((name) => (
              <td key={name}>
                <strong>{readAs.get(name) ?? w.unread}</strong>
              </td>
            ))}
          </tr>
          {[...(preview.units === null ? [] : [preview.units]), ...preview.rows].map((row) => (
            <tr key={row.join('|')}>
              {preview.header.map((name, column) => (
                <td key={name}>{row[column]}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  )
}
