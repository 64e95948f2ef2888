import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { paths } from '../../paths.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { useMachineNeed } from './machine-day.ts'

export function MachineLine({ row }: { readonly row: KnownRow<'machine'> }) {
  const need = useMachineNeed()(row.state)
  const w = words.machines
  const needs: Record<typeof need, string> = {
    out: row.state.service.why,
    leak: w.next.leak(row.state.name),
    air: w.next.air(row.state.name),
    none: row.state.programs.join(', '),
  }
  return (
    <li>
      <div className="grow">
        <Link to={paths.machine(row.subject)}>{row.state.name}</Link>{' '}
        <span className={need === 'out' ? 'tag stop' : 'tag'}>{standingText('machine', row.standing)}</span>
        <br />
        <span className="soft">{needs[need]}</span>
      </div>
      {row.state.type === 'steamSteriliser' && need !== 'out' && (
        <Link className="button" to={paths.build(row.subject)} aria-label={`${w.build}: ${row.state.name}`}>
          {w.build}
        </Link>
      )}
    </li>
  )
}
