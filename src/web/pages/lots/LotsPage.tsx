import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { useSearchParams } from 'react-router'
import { type LotCare, lotCares } from '#road/consumables/lot-care.ts'
import { subjectKey } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery } from '../../api/queries.ts'
import { Empty } from '../../components/Empty.tsx'
import { ChoiceField } from '../../components/Fields.tsx'
import { LimitLine } from '../../components/LimitLine.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { BottleForm } from '../baths/BottleForm.tsx'
import { LotList } from './LotList.tsx'
import { OpenLotForm } from './OpenLotForm.tsx'
import { type LotInCare, useLotCares } from './use-lot-cares.ts'

/** Every lot that was not taken out of use, by kind, with what it asks for. */
export function LotsPage() {
  const [opened, setOpened] = useState(0)
  const scanned = useSearchParams()[0].has('gtin')
  const w = words.lots
  return (
    <Page title={w.title} lead={w.lead}>
      <Loaded query={useQuery(knownQuery('lot', ['usable', 'toBeControlled', 'held', 'rejected']))}>
        {(rows) => <Lots rows={rows} />}
      </Loaded>
      <section className="stack">
        <details open={scanned}>
          <summary>{w.open}</summary>
          <OpenLotForm key={opened} onKept={() => setOpened((before) => before + 1)} />
        </details>
        <details>
          <summary>{words.baths.openBottle}</summary>
          <BottleForm />
        </details>
      </section>
      <LimitLine id="lot-expires-soon-days" />
    </Page>
  )
}

function Lots({ rows }: { readonly rows: readonly KnownRow<'lot'>[] }) {
  const [shown, setShown] = useState<LotCare | 'all'>('all')
  const w = words.lots
  const lots = useLotCares(rows)
  const having = (care: LotCare) => lots.filter((lot) => lot.care === care)
  const first = lotCares.filter((care) => care !== 'inUse').flatMap(having)[0]
  if (lots.length === 0) {
    return (
      <Empty>
        <p>{w.none}</p>
      </Empty>
    )
  }
  return (
    <>
      {first !== undefined && <NextLot lot={first} />}
      <ChoiceField
        label={w.show}
        value={shown}
        options={[
          { value: 'all', label: w.all(lots.length) },
          ...lotCares.map((care) => ({ value: care, label: w.some(w.cares[care], having(care).length) })),
        ].filter(({ value }) => value === 'all' || value === shown || having(value as LotCare).length > 0)}
        onChange={(next) => setShown(next as LotCare | 'all')}
      />
      <LotList lots={shown === 'all' ? lots : having(shown)} />
    </>
  )
}

function NextLot({ lot }: { readonly lot: LotInCare }) {
  const w = words.lots
  const { subject, state } = lot.row
  const name = w.of(words.baths.lotKinds[state.of], state.number || subjectKey(subject))
  return <Next says={w.next(name, w.cares[lot.care])} to={paths.lot(subject)} action={w.look} />
}
