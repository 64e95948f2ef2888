import type { CaseKnown } from '#road/operating/fold.ts'
import { Named } from '../../components/Named.tsx'
import { Why } from '../../components/Why.tsx'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { ImplantCodeList } from './ImplantCodes.tsx'

export function CaseRecord({ recorded }: { readonly recorded: NonNullable<CaseKnown['recorded']> }) {
  const times = useTimes()
  const w = words.theatre
  return (
    <section className="stack">
      <h2>
        <Why of={{ title: w.record, value: times.moment(recorded.at), entry: recorded.entry }}>{w.recordedAt}</Why>
      </h2>
      <dl className="facts">
        <dt>{w.startedAt}</dt>
        <dd>{times.moment(recorded.startedAt)}</dd>
        <dt>{w.endedAt}</dt>
        <dd>{times.moment(recorded.endedAt)}</dd>
        <dt>{w.woundClass}</dt>
        <dd>{w.woundClasses[recorded.woundClass]}</dd>
        <dt>{w.surgeon}</dt>
        <dd>
          <Named id={recorded.surgeon} />
        </dd>
        {recorded.antibiotic !== null && (
          <>
            <dt>{w.drug}</dt>
            <dd>
              {recorded.antibiotic.drug}, {times.moment(recorded.antibiotic.startedAt)}
            </dd>
          </>
        )}
        {recorded.implant !== null && (
          <>
            <dt>{w.implant}</dt>
            <dd>
              {recorded.implant.description} {recorded.implant.lot}
              <ImplantCodeList codes={recorded.implant.codes ?? []} />
            </dd>
          </>
        )}
      </dl>
    </section>
  )
}
