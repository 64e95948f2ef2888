import type { MakerMethod } from '#road/catalogue/attributes.ts'
import { unofferedFacts, type UnofferedMethod, unofferedMethods } from '#road/catalogue/unoffered-methods.ts'
import { Tick } from '../../components/Fields.tsx'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { MakerLine } from './MakerLine.tsx'

interface Props {
  readonly methods: readonly MakerMethod[] | undefined
  readonly onChange: (methods: MakerMethod[] | undefined) => void
  readonly others: readonly UnofferedMethod[] | undefined
  readonly onOthers: (others: UnofferedMethod[] | undefined) => void
}

/** The maker's allow-list: on file or not, and what it names. */
export function MakerList({ methods, onChange, others = [], onOthers }: Props) {
  const w = words.catalogue
  return (
    <fieldset className="field">
      <legend>{w.maker}</legend>
      <p className="soft small">{w.makerSays}</p>
      <Tick checked={methods !== undefined} onChange={(on) => onChange(on ? [] : undefined)}>
        {w.listOnFile}
      </Tick>
      {methods !== undefined && (
        <div className="choices">
          {optionsOf(w.methods).map(({ value, label }) => (
            <Tick
              key={value}
              checked={methods.some((each) => each.method === value)}
              onChange={(on) =>
                onChange(on ? [...methods, { method: value }] : methods.filter((each) => each.method !== value))
              }
            >
              {label}
            </Tick>
          ))}
          {unofferedMethods.map((method) => (
            <Tick
              key={method}
              checked={others.includes(method)}
              onChange={(on) => {
                const next = on ? [...others, method] : others.filter((each) => each !== method)
                onOthers(next.length === 0 ? undefined : next)
              }}
            >
              {unofferedFacts[method].name}
            </Tick>
          ))}
        </div>
      )}
      {(methods ?? []).map((line, place) => (
        <MakerLine
          key={`${line.method} ${place}`}
          line={line}
          onChange={(next) => onChange((methods ?? []).map((each) => (each === line ? next : each)))}
        />
      ))}
    </fieldset>
  )
}
