import { GasLogMap } from '#workings/gas/gas-map.ts'
import { gasProgramByKey, GasProgram } from '#workings/gas/gas-program.ts'
import { type GasCycleReading, readGasCycle } from '#workings/gas/read-gas-cycle.ts'
import type { CommandIo } from './command.ts'
import { runLogCommand } from './log-command.ts'

/** Reads the log of a gas or dry heat cycle and judges it against a programme. */
export function runReadGas(args: readonly string[], io: CommandIo): Promise<number> {
  return runLogCommand(
    {
      name: 'read-gas',
      program: GasProgram,
      map: GasLogMap,
      hasKey: (key) => gasProgramByKey(key) !== undefined,
      read: (request) => {
        if (request.cycle !== undefined && request.cycle !== 1)
          return {
            kind: 'unusable',
            problem: { field: 'cycle', wanted: '1, the one cycle of this log', current: String(request.cycle) },
          }
        const result = readGasCycle(request)
        return result.kind === 'read' ? { kind: 'read', cycles: [result.reading] } : result
      },
      figures,
    },
    args,
    io,
  )
}

function figures({ cancelled, exposureSeconds, exposure, variables }: GasCycleReading): string[] {
  return [
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
