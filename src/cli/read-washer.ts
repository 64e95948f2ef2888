import { readWasherCycles, type WasherCycleReading } from '#workings/washer/read-washer-cycles.ts'
import { WasherLogMap } from '#workings/washer/washer-map.ts'
import { WasherProgram, washerProgramByKey } from '#workings/washer/washer-program.ts'
import type { CommandIo } from './command.ts'
import { runLogCommand } from './log-command.ts'

/** Reads the log of a washer-disinfector and judges it against a programme. */
export function runReadWasher(args: readonly string[], io: CommandIo): Promise<number> {
  return runLogCommand(
    {
      name: 'read-washer',
      program: WasherProgram,
      map: WasherLogMap,
      hasKey: (key) => washerProgramByKey(key) !== undefined,
      read: readWasherCycles,
      figures,
    },
    args,
    io,
  )
}

function figures(reading: WasherCycleReading): string[] {
  const { a0Seconds, coldestChannel, a0WithDryingSeconds, disinfection, minC, maxC, stages, lastRinseMicroSPerCm } =
    reading
  return [
    ...stages.map(({ name, startSeconds, endSeconds }) => `${name.padEnd(14)} ${startSeconds} to ${endSeconds} s`),
    a0Seconds === null
      ? 'A0: none'
      : `A0 ${a0Seconds} s, coldest channel "${coldestChannel}" (with the drying it would be ${a0WithDryingSeconds} s, which does not count)`,
    disinfection === null
      ? 'time in the band: none'
      : `in the band ${disinfection.startSeconds} to ${disinfection.endSeconds} s, between ${minC} and ${maxC} °C`,
    ...(lastRinseMicroSPerCm === null ? [] : [`last rinse ${lastRinseMicroSPerCm} µS/cm`]),
  ]
}
