import { GasLogMap } from '#workings/gas/gas-map.ts'
import { gasProgramByKey, GasProgram } from '#workings/gas/gas-program.ts'
import { type GasCycleReading, readGasCycle } from '#workings/gas/read-gas-cycle.ts'
import { changedPrograms } from '#road/gases/changed-programs.ts'
import { policyFrom } from '#road/policy.ts'
import { startOfLog } from '#service/cycles/start-of-log.ts'
import type { CommandIo } from './command.ts'
import { type LogRead, type RecordAsked, runLogCommand } from './log-command.ts'
import { policyOfRecord } from './policy-of-record.ts'

/** What was read, and the version of the limits that judged; null for a programme from a file, which is its own limits. */
type GasReadingInForce = GasCycleReading & { readonly policyVersion: string | null }

interface GasRequest {
  readonly log: string
  readonly program: string | GasProgram
  readonly map: GasLogMap | undefined
  readonly cycle: number | undefined
  readonly record: RecordAsked | undefined
}

/**
 * Reads the log of a gas or dry heat cycle and judges it against a programme: by the published limits, or by those of a
 * record that were in force when the log begins.
 */
export function runReadGas(args: readonly string[], io: CommandIo): Promise<number> {
  return runLogCommand(
    {
      name: 'read-gas',
      takesRecord: true,
      program: GasProgram,
      map: GasLogMap,
      hasKey: (key) => gasProgramByKey(key) !== undefined,
      read: readInForce,
      figures,
    },
    args,
    io,
  )
}

async function readInForce({ log, program, map, cycle, record }: GasRequest): Promise<LogRead<GasReadingInForce>> {
  if (cycle !== undefined && cycle !== 1) {
    return {
      kind: 'unusable',
      problem: { field: 'cycle', wanted: '1, the one cycle of this log', current: String(cycle) },
    }
  }
  const policy = record === undefined ? policyFrom(undefined) : await policyOfRecord(record, startOfLog(log, undefined))
  if ('field' in policy) return { kind: 'unusable', problem: policy }
  const named = typeof program === 'string'
  const result = readGasCycle({ log, program: named ? (changedPrograms(policy)[program] ?? program) : program, map })
  if (result.kind !== 'read') return result
  return { kind: 'read', cycles: [{ ...result.reading, policyVersion: named ? policy.version : null }] }
}

function figures(reading: GasReadingInForce): string[] {
  const { cancelled, exposureSeconds, exposure, variables, policyVersion } = reading
  return [
    policyVersion === null ? 'limits: those of the programme in the file' : `limits: version ${policyVersion}`,
    ...(cancelled ? ['the log says that this cycle was cancelled'] : []),
    exposure === null
      ? 'exposure: none for certain'
      : `exposure ${exposureSeconds} s, from ${exposure.startSeconds} to ${exposure.endSeconds} s`,
    ...variables.map(({ variable, channels, min, max }) =>
      channels.length === 0
        ? `${variable}: not in the log`
        : `${variable}: ${min ?? 'none'} to ${max ?? 'none'} in the exposure (${channels.join(', ')})`,
    ),
  ]
}
