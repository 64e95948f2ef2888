import { useQueryClient } from '@tanstack/react-query'
import { useId, useState } from 'react'
import { type ImplantCode, implantCodeOf } from '#road/operating/implant.ts'
import { isSubjectOf } from '#road/subject.ts'
import { scanQuery } from '../../api/queries.ts'
import { isSeparatorKey, shownSeparator } from '../../components/use-scanner.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly codes: readonly ImplantCode[]
  readonly onChange: (codes: readonly ImplantCode[]) => void
}

/** The codes of implants, scanned one after the other: the Enter of the scanner reads the code and does not send the form. */
export function ImplantCodes({ codes, onChange }: Props) {
  const [text, setText] = useState('')
  const [problem, setProblem] = useState('')
  const client = useQueryClient()
  const id = useId()
  const w = words.theatre.implantCodes
  const read = async () => {
    const sent = text.trim()
    if (sent === '') return
    const answer = await client.fetchQuery({ ...scanQuery(sent), staleTime: 0 }).catch(() => undefined)
    if (answer === undefined) return setProblem(w.notAsked)
    if (answer.read.is === 'unusable') {
      const { field, wanted, current, todo } = answer.read.fault
      return setProblem(`${field}: ${words.problem.wanted} ${wanted}; ${words.problem.came} ${current}. ${todo}`)
    }
    const code = answer.read.is === 'elements' ? implantCodeOf(answer.read.product) : undefined
    if (code === undefined) return setProblem(w.noProduct)
    const lot = answer.found.find((each) => each.exact && each.kind === 'lot')?.subject
    const fromLot = lot !== undefined && isSubjectOf('lot', lot) ? { fromLot: lot } : {}
    setProblem(answer.read.is === 'elements' ? (answer.read.remark ?? '') : '')
    setText('')
    onChange([...codes, { ...code, ...fromLot }])
  }
  return (
    <div className="stack">
      <div className="field">
        <label htmlFor={id}>
          {w.scan} <span className="soft small">({words.form.optional})</span>
        </label>
        <div className="row">
          <input
            id={id}
            className="grow"
            autoComplete="off"
            value={text}
            aria-describedby={`${id}-problem`}
            onChange={(event) => setText(event.target.value.replaceAll('\u001d', shownSeparator))}
            onKeyDown={(event) => {
              if (isSeparatorKey(event)) {
                event.preventDefault()
                document.execCommand('insertText', false, shownSeparator)
              } else if (event.key === 'Enter') {
                event.preventDefault()
                void read()
              }
            }}
          />
          <button type="button" onClick={() => void read()}>
            {w.add}
          </button>
        </div>
        <span id={`${id}-problem`} role="alert">
          {problem}
        </span>
      </div>
      <ImplantCodeList codes={codes} onRemove={(place) => onChange(codes.filter((_, other) => other !== place))} />
    </div>
  )
}

interface ListProps {
  readonly codes: readonly ImplantCode[]
  readonly onRemove?: (place: number) => void
}

/** What the codes say; a piece may be there twice, since several are packed in one. */
export function ImplantCodeList({ codes, onRemove }: ListProps) {
  const times = useTimes()
  const w = words.theatre.implantCodes
  if (codes.length === 0) return null
  return (
    <ul className="lines">
      {codes.map(({ di, lot, serial, expiresOn }, place) => (
        <li key={`${place} ${di}`} className="row apart">
          <span>
            {[
              w.product(di),
              ...(lot === undefined ? [] : [w.lot(lot)]),
              ...(serial === undefined ? [] : [w.serial(serial)]),
              ...(expiresOn === undefined ? [w.noExpiry] : [w.expires(times.date(expiresOn))]),
            ].join(', ')}
          </span>
          {onRemove !== undefined && (
            <button type="button" onClick={() => onRemove(place)}>
              {w.remove}
            </button>
          )}
        </li>
      ))}
    </ul>
  )
}
