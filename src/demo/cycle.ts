import type { Bodies } from '#road/kinds.ts'
import { cycleReport } from './cycle-report.ts'
import type { Hospital } from './hospital.ts'
import { instantOf } from './hospital-clock.ts'
import { airRemovalProgram, steamLogMap, steamProgram, type Steriliser } from './machines.ts'
import type { PersonId } from './people.ts'
import { type CycleShape, steamLogText } from './steam-log.ts'

export interface RunCycle {
  readonly load: Bodies['cycle-logged']['load']
  readonly steriliser: Steriliser
  readonly number: number
  readonly startedAt: number
  readonly shape: CycleShape
  readonly by: PersonId
  readonly airRemoval?: boolean
}

/** Runs a cycle and logs it: the log is simulated, and read by the same reader that reads a real one. Gives its end. */
export function runCycle(hospital: Hospital, run: RunCycle): { readonly endedAt: number; readonly met: boolean } {
  const { text, seconds } = steamLogText(hospital.diceFor(`cycle:${run.load}`), run.shape)
  const endedAt = run.startedAt + seconds * 1000
  const report = cycleReport(text, run.steriliser)
  hospital.write({
    at: endedAt + 60_000,
    by: run.by,
    room: 'Steriliser room',
    kind: 'cycle-logged',
    files: [{ text, mediaType: 'text/csv' }],
    body: {
      load: run.load,
      cycleNumber: String(run.number).padStart(5, '0'),
      program: run.airRemoval === true ? airRemovalProgram : steamProgram,
      startedAt: instantOf(run.startedAt),
      endedAt: instantOf(endedAt),
      log: hospital.digest(text),
      logMap: steamLogMap,
      cycleInLog: 1,
      report,
    },
  })
  return { endedAt, met: report.verdict === 'met' }
}
