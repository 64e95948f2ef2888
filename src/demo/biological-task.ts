import type { Bodies } from '#road/kinds.ts'
import type { Sealed } from './hospital.ts'

/** A biological indicator in the incubator. */
export interface BiologicalTask {
  readonly load: Bodies['biological-read']['load']
  readonly lot: string
  readonly ranOn: number
  readonly endedAt: number
  readonly implants: readonly Sealed[]
}

/** A new lot of indicators every eight weeks. */
export function biologicalLot(workingDay: number): string {
  return `S${410 + Math.floor(workingDay / 40)}`
}
