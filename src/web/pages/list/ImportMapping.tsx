import { useState } from 'react'
import { useQuery } from '@tanstack/react-query'
import { type ListColumn, listColumns, type ListMapping } from '#road/list-import/mapping.ts'
import type { SubjectId } from '#road/subject.ts'
import type { ListPreview } from '#service/api-types.ts'
import { knownQuery } from '../../api/queries.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly preview: ListPreview
  readonly busy: boolean
  readonly keep: (mapping: ListMapping) => void
}

const columnNames = Object.keys(listColumns) as ListColumn[]

/** Which column is which, and who the surgeons of the other system are: kept for the next list. */
export function ImportMapping({ preview, busy, keep }: Props) {
  const w = words.listImport
  const [mapping, setMapping] = useState(preview.mapping)
  const people = (useQuery(knownQuery('person', ['active'])).data ?? []).filter(({ state }) => !state.left)
  const asked = preview.rows.flatMap(({ asks }) => (asks === null ? [] : [asks.name]))
  const names = [...new Set([...asked, ...Object.keys(mapping.surgeons)])]
  const nothingRead = preview.rows.every(({ case: id }) => id === null)
  const withColumn = (column: ListColumn, heading: string): void => {
    const others = Object.entries(mapping.columns).filter(([name]) => name !== column)
    setMapping({ ...mapping, columns: Object.fromEntries(heading === '' ? others : [...others, [column, heading]]) })
  }
  const withSurgeon = (name: string, person: string): void => {
    const others = Object.entries(mapping.surgeons).filter(([each]) => each !== name)
    const chosen = person === '' ? others : [...others, [name, person as SubjectId<'person'>] as const]
    setMapping({ ...mapping, surgeons: Object.fromEntries(chosen) })
  }
  return (
    <details className="sheet" open={asked.length > 0 || nothingRead}>
      <summary>{w.mapping}</summary>
      <form
        className="stack"
        onSubmit={(event) => {
          event.preventDefault()
          keep(mapping)
        }}
      >
        <p className="soft">{w.mappingSays}</p>
        {names.length > 0 && (
          <fieldset className="stack">
            <legend>{w.surgeons}</legend>
            {names.map((name) => (
              <label key={name} className="field">
                {name}
                <select value={mapping.surgeons[name] ?? ''} onChange={({ target }) => withSurgeon(name, target.value)}>
                  <option value="">{w.nobody}</option>
                  {people.map((person) => (
                    <option key={person.subject} value={person.subject}>
                      {person.state.name}
                    </option>
                  ))}
                </select>
              </label>
            ))}
          </fieldset>
        )}
        {preview.format === 'csv' && (
          <>
            {columnNames.map((column) => (
              <label key={column} className="field">
                {w.columns[column]}
                <select
                  value={mapping.columns[column] ?? ''}
                  onChange={({ target }) => withColumn(column, target.value)}
                >
                  <option value="">{w.notThere}</option>
                  {preview.headings.map((heading) => (
                    <option key={heading}>{heading}</option>
                  ))}
                </select>
              </label>
            ))}
            <label className="field">
              {w.dateOrder}
              <select
                value={mapping.dateOrder}
                onChange={({ target }) =>
                  setMapping({ ...mapping, dateOrder: target.value === 'monthFirst' ? 'monthFirst' : 'dayFirst' })
                }
              >
                <option value="dayFirst">{w.dateOrders.dayFirst}</option>
                <option value="monthFirst">{w.dateOrders.monthFirst}</option>
              </select>
            </label>
          </>
        )}
        <label className="field">
          {w.implant}
          <select
            value={mapping.implantWhenNotSaid ? 'yes' : 'no'}
            onChange={({ target }) => setMapping({ ...mapping, implantWhenNotSaid: target.value === 'yes' })}
          >
            <option value="yes">{w.implants.yes}</option>
            <option value="no">{w.implants.no}</option>
          </select>
        </label>
        <div>
          <button disabled={busy}>{w.keep}</button>
        </div>
      </form>
    </details>
  )
}
