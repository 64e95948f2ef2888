import { useQuery } from '@tanstack/react-query'
import type { BathKnown } from '#road/baths/bath-fold.ts'
import { rinseCount } from '#road/baths/limits.ts'
import { bathProduct } from '#road/baths/products.ts'
import { subjectKey } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { knownQuery, subjectQuery } from '../../api/queries.ts'
import { useClocks } from '../../clocks/use-clocks.ts'
import { EntryTable } from '../../components/EntryTable.tsx'
import { InDoubt } from '../../components/InDoubt.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { usePolicy } from '../../components/use-policy.ts'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { Aftermath } from './Aftermath.tsx'
import { BathAge } from './BathAge.tsx'
import { BathCare } from './BathCare.tsx'
import { ImmerseForm } from './ImmerseForm.tsx'
import { ImmersionSheet } from './ImmersionSheet.tsx'
import { ReadySets, useReadySets } from './ReadySets.tsx'
import { StripForm } from './StripForm.tsx'
import { TemperatureForm } from './TemperatureForm.tsx'

export function BathPage() {
  const id = useKey('bath')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <Bath row={row} />}
    </LoadedSubject>
  )
}

function Bath({ row }: { readonly row: KnownRow<'bath'> }) {
  const bath = row.state
  const product = bath.product === null ? undefined : bathProduct(bath.product)
  const { data: open = [] } = useQuery(knownQuery('immersion', ['immersed', 'takenOut']))
  const here = open.filter(({ state }) => state.bath === row.subject)
  const usable = row.standing === 'inUse'
  const w = words.baths
  return (
    <Page
      title={product?.agent ?? subjectKey(row.subject)}
      lead={
        <p>
          {bath.place}, <BathAge bath={bath} />. <LastReadings bath={bath} />
        </p>
      }
    >
      <InDoubt of={row.doubts} />
      <NextHere bath={bath} usable={usable} open={here} />
      <ReadySets from={bath} />
      {here.length > 0 && (
        <section className="stack" aria-label={w.underWay}>
          <h2>{w.underWay}</h2>
          {here.map((immersion) => (
            <ImmersionSheet key={immersion.subject} immersion={immersion.state} />
          ))}
        </section>
      )}
      {usable ? (
        <AtTheBath bath={bath} />
      ) : (
        <details className="no-print">
          <summary>{w.late}</summary>
          <p className="soft">{w.lateSays}</p>
          <AtTheBath bath={bath} />
        </details>
      )}
      <Aftermath bath={bath} />
      <BathCare bath={bath} standing={row.standing} />
      {product !== undefined && (
        <section className="stack">
          <h2>{w.notes}</h2>
          <ul>
            {product.notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </section>
      )}
      <EntryTable of={row.subject} />
    </Page>
  )
}

/** What is done at a bath: its strip, its temperature, its immersion. */
function AtTheBath({ bath }: { readonly bath: BathKnown }) {
  const w = words.baths
  return (
    <>
      <div className="halves">
        <section className="sheet stack">
          <h2>{w.strip}</h2>
          <StripForm bath={bath} />
        </section>
        <section className="sheet stack">
          <h2>{w.warm}</h2>
          <TemperatureForm bath={bath} />
        </section>
      </div>
      <section className="sheet stack">
        <h2>{w.immerse}</h2>
        <ImmerseForm key={bath.uses.length} bath={bath} />
      </section>
    </>
  )
}

function LastReadings({ bath }: { readonly bath: BathKnown }) {
  const times = useTimes()
  const { freshStrip, temperature } = bath
  const w = words.baths
  const result =
    freshStrip === null
      ? ''
      : typeof freshStrip.result === 'string'
        ? w.strips[freshStrip.result]
        : `${freshStrip.result.percent} %`
  return (
    <>
      {freshStrip === null ? w.noStrip : w.lastStrip(result, times.moment(freshStrip.at))}.{' '}
      {temperature === null
        ? w.noTemperature
        : w.lastTemperature(String(temperature.celsius), times.moment(temperature.at))}
      .
    </>
  )
}

interface NextProps {
  readonly bath: BathKnown
  readonly usable: boolean
  readonly open: readonly KnownRow<'immersion'>[]
}

function NextHere({ bath, usable, open }: NextProps) {
  const due = useClocks().some((clock) => clock.at === bath.id && clock.ended)
  const rinses = usePolicy().limit(rinseCount).value
  const ready = useReadySets(bath)
  const { data: lots } = useQuery(knownQuery('lot'))
  const w = words.baths
  if (due) return <Next says={w.nextTakeOut} />
  const out = open.find((row) => row.standing === 'takenOut')?.state.rinses.length
  if (out !== undefined) return <Next says={out < rinses ? w.nextRinse(out + 1, rinses) : w.nextDecide} />
  if (open.length > 0) return <Next says={w.nextWait} />
  if (ready.length > 0) return <Next says={w.nextUse} />
  if (!usable) return <Next says={w.nextDiscard} />
  if (bath.freshStrip !== null) return <Next says={w.nextImmerse} />
  const noBottle = lots !== undefined && !lots.some(({ state }) => state.of === 'strengthStrip')
  return noBottle ? (
    <Next says={w.nextBottle} to={`${paths.baths}#bottle`} action={w.openBottle} />
  ) : (
    <Next says={w.nextStrip} />
  )
}
