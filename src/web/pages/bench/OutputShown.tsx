import { Fragment } from 'react'
import { words } from '../../words/words.ts'
import { FigurePlot } from './FigurePlot.tsx'
import { isRecord } from './schema-shape.ts'
import { spoken } from './ShapeForm.tsx'

const mostRows = 60

/** What a working gave: figures by name, lists of things as tables, columns of figures as a picture as well. */
export function OutputShown({ value }: { readonly value: unknown }) {
  if (Array.isArray(value)) return <ListShown name="" list={value} />
  if (!isRecord(value)) return <p>{figure(value)}</p>
  const entries = Object.entries(value)
  const plain = entries.filter(([, each]) => !Array.isArray(each) && !isRecord(each))
  return (
    <>
      {plain.length > 0 && (
        <dl className="facts">
          {plain.map(([name, each]) => (
            <Fragment key={name}>
              <dt>{spoken(name)}</dt>
              <dd>{figure(each)}</dd>
            </Fragment>
          ))}
        </dl>
      )}
      {entries.map(([name, each]) =>
        Array.isArray(each) ? (
          <section key={name} aria-label={spoken(name)}>
            <h3>{spoken(name)}</h3>
            <ListShown name={spoken(name)} list={each} />
          </section>
        ) : isRecord(each) ? (
          <section key={name} aria-label={spoken(name)}>
            <h3>{spoken(name)}</h3>
            <OutputShown value={each} />
          </section>
        ) : null,
      )}
    </>
  )
}

function ListShown({ name, list }: { readonly name: string; readonly list: readonly unknown[] }) {
  const figures = list.filter((each) => typeof each === 'number')
  if (list.length > 2 && figures.length === list.length) return <FigurePlot label={name} figures={figures} />
  if (!list.every(isRecord)) return <p>{list.map(figure).join(', ')}</p>
  const columns = [...new Set(list.flatMap((row) => Object.keys(row)))]
  return (
    // What can be pushed sideways is reached by the keyboard as well.
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
    <div className="scroll" tabIndex={0}>
      <table>
        <thead>
          <tr>
            {columns.map((column) => (
              <th key={column} scope="col">
                {spoken(column)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {list.slice(0, mostRows).map((row, place) => (
            // oxlint-disable-next-line react/no-array-index-key: rows of an answer that is shown once have no other name
            <tr key={place}>
              {columns.map((column) => (
                <td key={column}>{figure(row[column])}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {list.length > mostRows && <p className="soft">{words.unit.benchMore(list.length - mostRows)}</p>}
    </div>
  )
}

/** As a person reads it; the whole of it stands in the JSON below. */
function figure(value: unknown): string {
  if (typeof value === 'number') return Number.isInteger(value) ? String(value) : String(Number(value.toPrecision(6)))
  if (typeof value === 'boolean') return value ? words.form.yes : words.form.no
  return typeof value === 'string' ? value : value === null || value === undefined ? '–' : JSON.stringify(value)
}
