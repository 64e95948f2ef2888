import { Fragment } from 'react'
import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { methodOf } from '#road/sterilising/method-of.ts'
import { isPressing } from '#road/sterilising/due-tests.ts'
import { useMachineDays } from '../../components/use-due-tests.ts'
import { dueText } from '../../words/due.ts'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { useMachineNeed } from './machine-day.ts'

export function MachineLine({ row }: { readonly row: KnownRow<'machine'> }) {
  const need = useMachineNeed()(row.state)
  const [day] = useMachineDays([row.state])
  const pressing = day?.tests.filter(isPressing) ?? []
  const { build, due } = words.machines
  return (
    <li>
      <div className="grow">
        <Link to={paths.machine(row.subject)}>{row.state.name}</Link>{' '}
        <span className={need === 'out' ? 'tag stop' : 'tag'}>{standingText('machine', row.standing)}</span>
        <br />
        <span className="soft">{need === 'out' ? row.state.service.why : row.state.programs.join(', ')}</span>
        {pressing.map((test) => (
          <Fragment key={`${test.test} ${test.lot ?? ''}`}>
            <br />
            <span>{due.attention(dueText(test), due.states[test.state])}</span>
          </Fragment>
        ))}
      </div>
      {methodOf(row.state) !== undefined && need !== 'out' && (
        <Link className="button" to={paths.build(row.subject)} aria-label={`${build}: ${row.state.name}`}>
          {build}
        </Link>
      )}
    </li>
  )
}
