import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { RateGroup, RatesBy } from '#service/api-types.ts'
import { ratesQuery } from '../../api/wound-queries.ts'
import { Empty } from '../../components/Empty.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { useNames } from '../../components/Named.tsx'
import { Page } from '../../components/Page.tsx'
import { Table } from '../../components/Table.tsx'
import { useTimes } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { CaseLines } from './CaseLines.tsx'
import { DurationCuts } from './DurationCuts.tsx'
import { RateCells, rateHeads } from './RateFigures.tsx'
import { WoundPlaces } from './WoundPlaces.tsx'

type Rate = RatesBy['all']

export function RatesPage() {
  const w = words.wounds.rates
  const [by, setBy] = useState<RateGroup>('procedure')
  const [days, setDays] = useState<keyof typeof w.dayChoices>('365')
  return (
    <Page title={w.title} lead={w.lead}>
      <WoundPlaces />
      <div className="pair no-print">
        <SelectField label={w.by} value={by} options={optionsOf(w.groups)} onChange={setBy} />
        <SelectField label={w.days} value={days} options={optionsOf(w.dayChoices)} onChange={setDays} />
      </div>
      <Loaded query={useQuery(ratesQuery(by, Number(days)))}>
        {(rates) =>
          rates.all.operations === 0 ? <Empty>{w.none}</Empty> : <Rates by={by} rates={rates} days={Number(days)} />
        }
      </Loaded>
    </Page>
  )
}

interface RatesProps {
  readonly by: RateGroup
  readonly rates: RatesBy
  readonly days: number
}

function Rates({ by, rates, days }: RatesProps) {
  const w = words.wounds.rates
  const nameOf = useNames('person')
  const times = useTimes()
  const nameGroup = (group: string): string => {
    if (by === 'procedure') return (words.wounds.procedures as Readonly<Record<string, string>>)[group] ?? group
    if (by === 'riskIndex') return (words.wounds.risk.categories as Readonly<Record<string, string>>)[group] ?? group
    if (by === 'woundClass') return (words.theatre.woundClasses as Readonly<Record<string, string>>)[group] ?? group
    if (by === 'month') return times.month(group)
    return by === 'surgeon' ? nameOf(group as `person:${string}`) : group
  }
  return (
    <>
      {rates.all.unjudged > 0 && <p role="note">{w.unjudged(rates.all.unjudged)}</p>}
      <Table>
        <caption>{w.title}</caption>
        <thead>
          <tr>
            {[w.groups[by], ...rateHeads, w.late].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          <RateRow name={w.all} rate={rates.all} />
          {rates.groups.map(({ group, rate }) => (
            <RateRow key={group} name={nameGroup(group)} rate={rate} />
          ))}
        </tbody>
      </Table>
      <p className="soft">{w.small}</p>
      {by === 'riskIndex' && <DurationCuts cuts={rates.cuts} />}
      <CaseLines days={days} />
      <Preventions rates={rates} />
    </>
  )
}

function RateRow({ name, rate }: { readonly name: string; readonly rate: Rate }) {
  return (
    <tr>
      <th scope="row">{name}</th>
      <RateCells rate={rate} />
      <td>{rate.late}</td>
    </tr>
  )
}

function Preventions({ rates }: { readonly rates: RatesBy }) {
  const w = words.wounds.rates
  return (
    <section className="stack">
      <h2>{w.prevention}</h2>
      <p className="soft">{w.preventionSays}</p>
      <p>{w.complete(rates.preventionComplete, rates.all.operations)}</p>
      <Table>
        <caption className="unseen">{w.prevention}</caption>
        <thead>
          <tr>
            <th scope="col">{w.prevention}</th>
            <th scope="col">{w.done}</th>
            <th scope="col">{w.notDone}</th>
            <th scope="col">{w.unknown}</th>
          </tr>
        </thead>
        <tbody>
          {rates.prevention.map((row) => (
            <tr key={row.measure}>
              <th scope="row">{words.wounds.preventions[row.measure]}</th>
              <td>{row.done}</td>
              <td>{row.notDone}</td>
              <td>{row.unknown}</td>
            </tr>
          ))}
        </tbody>
      </Table>
    </section>
  )
}
