import { useState } from 'react'
import type { PlanOfDay } from '#service/api-types.ts'
import { PlanKeys, PlanPicture } from '../../charts/PlanPicture.tsx'
import { Findings } from '../../components/Findings.tsx'
import { ProblemNote } from '../../components/ProblemNote.tsx'
import { words } from '../../words/words.ts'
import { Advice } from './Advice.tsx'
import { CaseTables } from './CaseTables.tsx'
import { Chances } from './Chances.tsx'
import { Compare } from './Compare.tsx'
import { FactsTable } from './FactsTable.tsx'
import { FixedPlaces } from './FixedPlaces.tsx'
import { KeepPlan } from './KeepPlan.tsx'
import { OwnOrder } from './OwnOrder.tsx'
import { PlanStatus } from './PlanStatus.tsx'
import { bookedOrder, lengthsOf, movedOrder, orderOfCases, placeAt } from './plan-view.ts'
import { Replan } from './Replan.tsx'
import { SurgeonList } from './SurgeonList.tsx'
import { useOwnSurgeon } from './use-own-surgeon.ts'
import { type DayPlan, shownPlans, useDayPlan } from './use-day-plan.ts'
import { WhyHere } from './WhyHere.tsx'

/** The plan of one day, and all that is done with it. */
export function DayList({ day }: { readonly day: string }) {
  const plan = useDayPlan(day)
  if (plan.best !== undefined) return <Planned day={plan.best} plan={plan} />
  if (plan.first.error) return <ProblemNote error={plan.first.error} retry={() => void plan.first.refetch()} />
  return <p className="soft">{words.list.planning}</p>
}

function Planned({ day, plan }: { readonly day: PlanOfDay; readonly plan: DayPlan }) {
  const [asked, setAsked] = useState<string | null>(null)
  const [said, setSaid] = useState('')
  const plans = shownPlans(day, plan)
  const wanted = plan.order !== null ? 'own' : plan.locks.length > 0 ? 'fixed' : 'best'
  const shown = plans.find(({ name }) => name === wanted) ?? plans[0]
  const mine = useOwnSurgeon(day)
  const w = words.list
  const move = (id: string, theatre: string, place: number): void => {
    if (shown === undefined) return
    const order = plan.order ?? orderOfCases(shown.cases)
    plan.setOrder(movedOrder(order, id, theatre, place))
    setSaid(w.table.moved(id, theatre, place + 1))
  }
  return (
    <>
      {shown !== undefined && mine !== null && <SurgeonList day={day} shown={shown} own={mine} />}
      <PlanStatus day={day} plan={plan} />
      {day.instance === null && <p className="empty">{w.nothing}</p>}
      {shown !== undefined && (
        <>
          <section className="stack" aria-label={w.chart.title}>
            <h2>{w.compare.names[shown.name]}</h2>
            <p className="soft no-print">{w.chart.hint}</p>
            <div className="row no-print">
              <button
                type="button"
                onClick={() => {
                  plan.setOrder(bookedOrder(day))
                  setSaid(w.table.triedAsBooked)
                }}
              >
                {w.table.asBooked}
              </button>
            </div>
            <output className="unseen">{said}</output>
            {shown.chart !== null && (
              <>
                <PlanPicture
                  name={w.compare.names[shown.name]}
                  chart={shown.chart}
                  binding={shown.why?.binding.what ?? null}
                  now={day.nowMinute > 0 ? day.nowMinute : undefined}
                  onDrop={({ case: id, theatre, minute }) =>
                    move(id, theatre, placeAt(shown.cases, lengthsOf(day), { id, theatre, minute }))
                  }
                />
                <PlanKeys chart={shown.chart} />
              </>
            )}
          </section>
          <OwnOrder day={day} plan={plan} />
          <FixedPlaces day={day} plan={plan} />
          <CaseTables day={day} shown={shown} locks={plan.locks} onMove={move} onWhy={setAsked} />
          {shown.chart !== null && <FactsTable chart={shown.chart} />}
          {mine === null && <SurgeonList day={day} shown={shown} own={null} />}
          <Advice shown={shown} />
          <Chances day={day} />
          <Compare plans={plans} />
          <Replan day={day} plan={plan} />
          <KeepPlan day={day} plans={plans} />
          {asked !== null && (
            <WhyHere day={day} shown={shown} id={asked} plan={plan} onMove={move} onClose={() => setAsked(null)} />
          )}
        </>
      )}
      {day.findings.length > 0 && (
        <section className="stack" aria-label={w.findings}>
          <h2>{w.findings}</h2>
          <Findings findings={day.findings} label={w.findings} />
        </section>
      )}
    </>
  )
}
