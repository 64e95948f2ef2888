import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { Link } from 'react-router'
import type { SetKnown } from '#road/catalogue/fold.ts'
import { usesOfItem, usesSinceCounted } from '#road/catalogue/uses-of-item.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { useNames } from '../../components/Named.tsx'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'

/** The items of a set with their uses, and a way to put another in. */
export function SetItems({ set }: { readonly set: SetKnown }) {
  const items = useQuery(knownQuery('item')).data ?? []
  const sets = useQuery(knownQuery('set')).data ?? []
  const nameOf = useNames('device')
  const [chosen, setChosen] = useState<SubjectId<'item'> | ''>('')
  const w = words.items
  const here = items.filter((row) => set.items.includes(row.subject))
  const others = items.filter((row) => !set.items.includes(row.subject) && row.state.retired === null)
  const item = others.find((row) => row.subject === chosen)?.state
  const from = sets.find((row) => item !== undefined && row.state.items.includes(item.id))?.state
  return (
    <section className="stack" aria-label={w.title}>
      <div className="row apart">
        <h2>{w.title}</h2>
        <Link className="button" to={paths.register('item')}>
          {words.unit.register.item}
        </Link>
      </div>
      {here.length === 0 && <p className="soft">{w.none}</p>}
      <ul className="lines">
        {here.map(({ subject, state, standing }) => (
          <li key={subject}>
            <Link className="grow" to={paths.item(subject)}>
              {w.of(nameOf(state.device), state.serial ?? '')}
            </Link>
            <span className="soft small">
              {standingText('item', standing)}, {w.uses(usesOfItem(set, state))}
            </span>
          </li>
        ))}
      </ul>
      {others.length > 0 && (
        <details className="sheet">
          <summary>{w.put}</summary>
          <EntryForm
            kind="item-moved"
            body={
              item === undefined
                ? null
                : {
                    item: item.id,
                    ...(from === undefined ? {} : { from: from.id }),
                    to: set.id,
                    uses: usesSinceCounted(from, item),
                  }
            }
            action={w.put}
            onKept={() => setChosen('')}
          >
            <SelectField
              label={w.item}
              value={chosen}
              options={others.map(({ subject, state }) => ({
                value: subject,
                label: w.of(nameOf(state.device), state.serial ?? ''),
              }))}
              onChange={setChosen}
            />
          </EntryForm>
        </details>
      )}
    </section>
  )
}
