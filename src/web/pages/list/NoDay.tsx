import { Link } from 'react-router'
import { Page } from '../../components/Page.tsx'
import { paths } from '../../paths.ts'
import { words } from '../../words/words.ts'
import { dayAfter } from './plan-view.ts'

/** Addresses can be of any length. */
const mostShown = 64

/** Says that an address names no day, what was wanted, and where the lists are. */
export function NoDay({ asked, today }: { readonly asked: string; readonly today: string }) {
  const w = words.list
  return (
    <Page title={w.noDay.title}>
      <div className="problem stack" role="alert">
        <p>{w.noDay.asked(asked.length > mostShown ? `${asked.slice(0, mostShown)}…` : asked)}</p>
        <p>{w.noDay.wanted(today)}</p>
      </div>
      <p className="row">
        <Link className="button" to={paths.listOf(today)}>
          {w.today}
        </Link>
        <Link className="button" to={paths.listOf(dayAfter(today))}>
          {w.tomorrow}
        </Link>
      </p>
    </Page>
  )
}
