import { Link, useNavigate } from 'react-router'
import { Page } from '../../components/Page.tsx'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { words } from '../../words/words.ts'
import { DayList } from './DayList.tsx'
import { NoDay } from './NoDay.tsx'
import { dayAfter } from './plan-view.ts'
import { useListDay } from './use-list-day.ts'

/** The lists of a day; of tomorrow when none is named. */
export function ListPage() {
  const navigate = useNavigate()
  const times = useTimes()
  const { day, today, says, noDay } = useListDay()
  const w = words.list
  if (noDay !== null) return <NoDay asked={noDay} today={today} />
  return (
    <Page title={w.title} lead={w.lead(says)}>
      <div className="row no-print">
        <label className="row">
          {w.day}
          <input
            type="date"
            value={day}
            style={{ width: 'auto' }}
            onChange={({ target }) => {
              if (times.fromInput(`${target.value}T12:00`) !== undefined) void navigate(paths.listOf(target.value))
            }}
          />
        </label>
        <Link className="button" to={paths.listOf(today)}>
          {w.today}
        </Link>
        <Link className="button" to={paths.listOf(dayAfter(today))}>
          {w.tomorrow}
        </Link>
      </div>
      <nav className="places no-print" aria-label={w.print.title}>
        <Link to={paths.listForWall(day)}>{w.print.wall}</Link>
        <Link to={paths.listForLine(day)}>{w.print.line}</Link>
        <Link to={paths.listImport}>{words.listImport.title}</Link>
      </nav>
      <DayList key={day} day={day} />
    </Page>
  )
}
