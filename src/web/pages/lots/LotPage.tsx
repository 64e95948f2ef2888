import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import { lotEnds } from '#road/consumables/lot-care.ts'
import type { LotKnown } from '#road/consumables/lot-fold.ts'
import { subjectKey } from '#road/subject.ts'
import type { KnownRow } from '#service/api-types.ts'
import { subjectQuery } from '../../api/queries.ts'
import { EntryTable } from '../../components/EntryTable.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { useKey } from '../../components/use-key.ts'
import { Why } from '../../components/Why.tsx'
import { useAskedRecall } from '../../components/use-asked-recall.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { incubationText } from './incubation-text.ts'
import { HoldForm, LotRecallForm, TryForm, WithdrawForm } from './LotForms.tsx'
import { tagOf } from './LotList.tsx'
import { type LotInCare, useLotCares } from './use-lot-cares.ts'

export function LotPage() {
  const id = useKey('lot')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <Lot row={row} />}
    </LoadedSubject>
  )
}

function Lot({ row }: { readonly row: KnownRow<'lot'> }) {
  const [lot] = useLotCares([row])
  const w = words.lots
  const { subject, state } = row
  if (lot === undefined) return null
  const care = state.withdrawn !== null && lot.care !== 'inDoubt' ? null : lot.care
  return (
    <Page
      title={w.of(words.baths.lotKinds[state.of], state.number || subjectKey(subject))}
      lead={
        <p className="row">
          <span className={care === null ? 'tag' : tagOf(care)}>{care === null ? w.withdrawn : w.cares[care]}</span>
          {state.name}
        </p>
      }
    >
      <NextHere lot={lot} />
      <Facts lot={state} />
      <p className="row no-print">
        <Link className="button" to={paths.traceOf(subject)}>
          {words.shell.trace}
        </Link>
        <Link className="button" to={paths.lots}>
          {w.toLots}
        </Link>
      </p>
      <Forms lot={state} />
      <EntryTable of={subject} />
    </Page>
  )
}

function NextHere({ lot: { care, recall } }: { readonly lot: LotInCare }) {
  const w = words.lots
  if (care !== 'inDoubt') return null
  if (recall !== undefined) return <Next says={w.cares[care]} to={paths.recall(recall)} action={w.toRecall} />
  return <Next says={w.recallNeeded} to="#recall" action={w.recall} />
}

function Facts({ lot }: { readonly lot: LotKnown }) {
  const times = useTimes()
  const w = words.lots
  const ends = lotEnds(lot)
  return (
    <dl className="facts">
      {lot.openedAt !== null && <dt>{w.opened}</dt>}
      {lot.openedAt !== null && <dd>{times.moment(lot.openedAt)}</dd>}
      {ends !== null && <dt>{w.ends}</dt>}
      {ends !== null && <dd>{times.day(ends)}</dd>}
      {lot.control !== null && <dt>{w.lastTry}</dt>}
      {lot.control !== null && (
        <dd>
          <Why of={{ title: w.lastTry, value: w.results[lot.control.result], entry: lot.control.entry }}>
            {w.results[lot.control.result]}
          </Why>
          , {lot.control.what}, {times.moment(lot.control.at)}
        </dd>
      )}
      {lot.held !== null && <dt>{w.cares.held}</dt>}
      {lot.held !== null && <dd>{lot.held.why}</dd>}
      {lot.withdrawn !== null && <dt>{w.withdrawn}</dt>}
      {lot.withdrawn !== null && (
        <dd>
          {words.baths.withdrawals[lot.withdrawn.because]}, {lot.withdrawn.why}
        </dd>
      )}
      {lot.of === 'detergent' && <dt>{w.range}</dt>}
      {lot.of === 'detergent' && <dd>{makerText(lot)}</dd>}
      {lot.of === 'biologicalIndicator' && <dt>{w.incubation}</dt>}
      {lot.of === 'biologicalIndicator' && (
        <dd>{lot.incubation === null ? w.incubationUnknown : incubationText(lot.incubation)}</dd>
      )}
    </dl>
  )
}

function makerText({ makerRange }: LotKnown): string {
  const w = words.lots
  const { dilutionMlPerLitre: dilution, temperatureC: celsius } = makerRange ?? {}
  const parts = [
    dilution === undefined ? undefined : w.rangeOf(dilution.from, dilution.to, 'ml/L'),
    celsius === undefined ? undefined : w.rangeOf(celsius.from, celsius.to, '°C'),
  ].filter((each) => each !== undefined)
  return parts.length === 0 ? w.rangeUnknown : parts.join(', ')
}

function Forms({ lot }: { readonly lot: LotKnown }) {
  const asked = useAskedRecall()
  const w = words.lots
  return (
    <section className="stack no-print">
      {lot.withdrawn === null && lot.of !== 'strengthStrip' && (
        <details open={lot.needsControl && lot.control === null}>
          <summary>{w.tryIt}</summary>
          <TryForm lot={lot.id} />
        </details>
      )}
      {lot.withdrawn === null && (
        <details>
          <summary>{lot.held === null ? w.hold : w.letGo}</summary>
          <HoldForm key={String(lot.held === null)} lot={lot.id} held={lot.held === null} />
        </details>
      )}
      {lot.withdrawn === null && (
        <details>
          <summary>{words.baths.withdrawLot}</summary>
          <WithdrawForm lot={lot.id} />
        </details>
      )}
      <details id="recall" open={asked !== null}>
        <summary>{w.recall}</summary>
        <LotRecallForm lot={lot.id} />
      </details>
    </section>
  )
}
