import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { SetKnown } from '#road/catalogue/fold.ts'
import type { ItemKnown } from '#road/catalogue/item-fold.ts'
import { usesSinceCounted } from '#road/catalogue/uses-of-item.ts'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { words } from '../../words/words.ts'

/** Into another set or out of all; the item brings its count along. */
export function MoveForm({ item, set }: { readonly item: ItemKnown; readonly set: SetKnown | undefined }) {
  const sets = useQuery(knownQuery('set')).data ?? []
  const [to, setTo] = useState<SubjectId<'set'> | ''>('')
  const nowhere = to === '' && set === undefined
  return (
    <EntryForm
      kind="item-moved"
      body={
        nowhere
          ? null
          : {
              item: item.id,
              ...(set === undefined ? {} : { from: set.id }),
              ...(to === '' ? {} : { to }),
              uses: usesSinceCounted(set, item),
            }
      }
      action={words.items.move}
      onKept={() => setTo('')}
    >
      <SelectField
        label={words.items.moveTo}
        value={to}
        optional
        empty={words.items.noSet}
        options={sets
          .filter((row) => row.subject !== set?.id && row.standing !== 'returned')
          .map((row) => ({ value: row.subject, label: row.state.name }))}
        onChange={setTo}
      />
    </EntryForm>
  )
}
