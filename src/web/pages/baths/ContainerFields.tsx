import { TextField } from '../../components/Fields.tsx'
import { LotField } from '../../components/LotField.tsx'
import { words } from '../../words/words.ts'
import type { Container } from './use-container.ts'

/** The number and the maker of a container. */
export function ContainerFields({ of: { choice, maker, setMaker } }: { readonly of: Container }) {
  return (
    <>
      <LotField label={words.baths.lot} choice={choice} unknown="new" />
      <MakerField value={maker} onChange={setMaker} />
    </>
  )
}

/** Who made a lot: it tells two lots of one number apart. */
export function MakerField(field: { readonly value: string; readonly onChange: (maker: string) => void }) {
  return <TextField label={words.lots.maker} optional hint={words.lots.makerHint} {...field} />
}
