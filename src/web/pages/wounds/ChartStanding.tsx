import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { SubjectId } from '#road/subject.ts'
import { knownQuery } from '../../api/queries.ts'
import { chartOfWoundsQuery } from '../../api/wound-queries.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'

interface Props {
  readonly id: SubjectId<'chart'>
}

/** Whether an alarm of a chart stands, so that nobody has to open each to see it. */
export function ChartStanding({ id }: Props) {
  const times = useTimes()
  const { data } = useQuery(chartOfWoundsQuery(id))
  const w = words.wounds.chart
  if (data === undefined || data.path === null) return null
  const { alarmSince } = data.path
  return alarmSince === null ? (
    <span className="soft">{w.quiet}</span>
  ) : (
    <strong>{w.standing(times.day(alarmSince))}</strong>
  )
}

/** On the register: the charts whose alarm stands, each a step away. */
export function AlarmsStanding() {
  const { data: charts = [] } = useQuery(knownQuery('chart'))
  return charts.map((row) => <AlarmOf key={row.subject} id={row.state.id} name={row.state.set?.name ?? row.subject} />)
}

function AlarmOf({ id, name }: Props & { readonly name: string }) {
  const times = useTimes()
  const { data } = useQuery(chartOfWoundsQuery(id))
  const alarmSince = data?.path?.alarmSince ?? null
  if (alarmSince === null) return null
  return (
    <p>
      <Link to={paths.woundChart(id)}>{name}</Link>:{' '}
      <strong>{words.wounds.chart.alarmed(times.day(alarmSince))}</strong>
    </p>
  )
}
