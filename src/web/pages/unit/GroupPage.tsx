import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { GroupAnswer, GroupSite } from '#service/api-types.ts'
import { ask } from '../../api/client.ts'
import { Empty } from '../../components/Empty.tsx'
import { SelectField } from '../../components/Fields.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { Page } from '../../components/Page.tsx'
import { Table } from '../../components/Table.tsx'
import { useTimes, useUnit } from '../../session/unit.ts'
import { optionsOf } from '../../words/options.ts'
import { words } from '../../words/words.ts'
import { RateCells, rateHeads } from '../wounds/RateFigures.tsx'

/** The sites of a group side by side, at the service that was given the right to compare them. */
export function GroupPage() {
  const w = words.group
  return (
    <Page title={w.title} lead={w.lead}>
      {useUnit().comparesSites ? <Comparison /> : <Empty>{w.notHere}</Empty>}
    </Page>
  )
}

function Comparison() {
  const { dayChoices } = words.wounds.rates
  const [days, setDays] = useState<keyof typeof dayChoices>('365')
  const group = useQuery({
    queryKey: ['group', days],
    queryFn: () => ask<GroupAnswer>(`/api/group?days=${days}`),
  })
  return (
    <>
      <div className="pair no-print">
        <SelectField label={words.group.days} value={days} options={optionsOf(dayChoices)} onChange={setDays} />
      </div>
      <Loaded query={group}>{({ sites }) => <Sites sites={sites} />}</Loaded>
    </>
  )
}

function Sites({ sites }: { readonly sites: readonly GroupSite[] }) {
  const w = words.group
  const heads = [w.site, w.recalls, w.indicators, ...rateHeads, w.prevention]
  return (
    <Table>
      <caption className="unseen">{w.title}</caption>
      <thead>
        <tr>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {sites.map((site) => (
          <SiteRow key={site.site} site={site} />
        ))}
      </tbody>
    </Table>
  )
}

function SiteRow({ site }: { readonly site: GroupSite }) {
  const w = words.group
  const times = useTimes()
  const { rate, indicators } = site
  return (
    <tr>
      <th scope="row">
        {site.name ?? site.site}{' '}
        <span className="soft small">
          {site.name === null || site.lastRecordedAt === null
            ? w.noUnit
            : w.lastRecorded(site.site, times.moment(site.lastRecordedAt))}
        </span>
      </th>
      <td>{site.openRecalls}</td>
      <td>{w.indicatorsOf(indicators.grown, indicators.read)}</td>
      <RateCells rate={rate} />
      <td>{w.answered(site.preventionComplete, rate.operations)}</td>
    </tr>
  )
}
