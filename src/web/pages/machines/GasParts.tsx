import { useQuery } from '@tanstack/react-query'
import { methodOf } from '#road/sterilising/method-of.ts'
import type { LoadKnown } from '#road/sterilising/load-fold.ts'
import { knownQuery } from '../../api/queries.ts'
import { Aeration } from './Aeration.tsx'
import { CancelledCycle } from './CancelledCycle.tsx'
import { Residues } from './Residues.tsx'

/** What a load has besides, by the method of its machine. */
export function GasParts({ load }: { readonly load: LoadKnown }) {
  const { data: machines = [] } = useQuery(knownQuery('machine'))
  const machine = machines.find((row) => row.subject === load.machine)?.state
  const method = machine === undefined ? undefined : methodOf(machine)
  if (method === undefined || method === 'steam')
    return load.gas.cancelled === null ? null : <CancelledCycle load={load} />
  return (
    <>
      {load.decision === null && <CancelledCycle load={load} />}
      {method === 'ethyleneOxide' && load.gas.cancelled === null && <Aeration load={load} />}
      {method === 'ethyleneOxide' && <Residues load={load} />}
    </>
  )
}
