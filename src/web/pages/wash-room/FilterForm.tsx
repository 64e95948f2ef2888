import type { SubjectId } from '#road/subject.ts'
import { EntryForm } from '../../components/EntryForm.tsx'
import { LotField } from '../../components/LotField.tsx'
import { useLot } from '../../components/use-lot.ts'
import { words } from '../../words/words.ts'

/** The filter of an outlet is changed: from now on its water comes through another lot. */
export function FilterForm({ outlet }: { readonly outlet: SubjectId<'outlet'> }) {
  const filter = useLot('outletFilter')
  const w = words.lots.field
  return (
    <EntryForm
      kind="lot-used"
      body={filter.id === undefined ? null : { lot: filter.id, for: outlet }}
      action={w.changeFilter}
      judged
    >
      <LotField label={w.filter} choice={filter} />
    </EntryForm>
  )
}
