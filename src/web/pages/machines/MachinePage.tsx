import { useQuery } from '@tanstack/react-query'
import { Link } from 'react-router'
import type { KnownRow } from '#service/api-types.ts'
import { methodOf } from '#road/sterilising/method-of.ts'
import { subjectKey } from '#road/subject.ts'
import { loadsOfQuery, subjectQuery } from '../../api/queries.ts'
import { FirstOf } from '../../components/FirstOf.tsx'
import { Loaded } from '../../components/Loaded.tsx'
import { LoadedSubject } from '../../components/LoadedSubject.tsx'
import { Next } from '../../components/Next.tsx'
import { Page } from '../../components/Page.tsx'
import { Table } from '../../components/Table.tsx'
import { useKey } from '../../components/use-key.ts'
import { paths } from '../../paths.ts'
import { useTimes } from '../../session/unit.ts'
import { standingText } from '../../words/standing.ts'
import { words } from '../../words/words.ts'
import { useMachineNeed } from './machine-day.ts'
import { Connection } from './Connection.tsx'
import { FoilTest } from './FoilTest.tsx'
import { MachineCare } from './MachineCare.tsx'
import { MachineService } from './MachineService.tsx'
import { MachineTests } from './MachineTests.tsx'
import { RunningCycle } from './RunningCycle.tsx'
import { TodaysTests } from './TodaysTests.tsx'

export function MachinePage() {
  const id = useKey('machine')
  return (
    <LoadedSubject of={id} query={useQuery(subjectQuery(id))}>
      {(row) => <Machine row={row} />}
    </LoadedSubject>
  )
}

function Machine({ row }: { readonly row: KnownRow<'machine'> }) {
  const machine = row.state
  const sterilises = methodOf(machine) !== undefined
  const need = useMachineNeed()(machine)
  const w = words.machines
  const says = {
    out: w.next.out(machine.name),
    leak: w.next.leak(machine.name),
    air: w.next.air(machine.name),
    none: w.next.build(machine.name),
  }
  return (
    <Page
      title={machine.name}
      lead={
        <p>
          {words.unit.machineTypes[machine.type]}, {w.chamber(machine.chamberLitres)}, {machine.programs.join(', ')}.{' '}
          {standingText('machine', row.standing)}
          {machine.service.why === '' ? '.' : `: ${machine.service.why}`}
        </p>
      }
    >
      <p className="row no-print">
        <Link className="button" to={paths.change(row.subject)}>
          {words.catalogue.edit}
        </Link>
      </p>
      {sterilises && need === 'none' && <Next says={says.none} to={paths.build(row.subject)} action={w.build} />}
      {sterilises && need === 'out' && (
        <Next says={says.out} to={paths.buildRepeat(row.subject)} action={w.buildRepeat} />
      )}
      {sterilises && (need === 'leak' || need === 'air') && <Next says={says[need]} />}
      {sterilises && <TodaysTests machine={machine} />}
      {machine.airRemoval === 'dynamic' && <MachineTests machine={machine} need={need} />}
      {sterilises && <RunningCycle machine={row.subject} simulates={machine.type === 'steamSteriliser'} />}
      {sterilises && <Loads row={row} />}
      {sterilises && <Connection machine={row.subject} />}
      {machine.type === 'ultrasonicBath' && <FoilTest machine={machine} />}
      <MachineService machine={machine} />
      <MachineCare machine={machine} />
    </Page>
  )
}

function Loads({ row }: { readonly row: KnownRow<'machine'> }) {
  const times = useTimes()
  const w = words.machines
  return (
    <Loaded query={useQuery(loadsOfQuery(row.subject))}>
      {(loads) => (
        <FirstOf rows={loads} most={8}>
          {(shown) => (
            <Table>
              <caption>{w.loads}</caption>
              <thead>
                <tr>
                  <th scope="col">{w.load}</th>
                  <th scope="col">{w.builtAt}</th>
                  <th scope="col">{w.program}</th>
                  <th scope="col">{w.standing}</th>
                  <th scope="col" className="number">
                    {w.packs}
                  </th>
                </tr>
              </thead>
              <tbody>
                {shown.map((load) => (
                  <tr key={load.subject}>
                    <th scope="row">
                      <Link to={paths.load(load.subject)}>{subjectKey(load.subject)}</Link>
                    </th>
                    <td>{load.state.builtAt === null ? '' : times.moment(load.state.builtAt)}</td>
                    <td>{load.state.program}</td>
                    <td>{standingText('load', load.standing)}</td>
                    <td className="number">{load.state.rounds.length}</td>
                  </tr>
                ))}
              </tbody>
            </Table>
          )}
        </FirstOf>
      )}
    </Loaded>
  )
}
