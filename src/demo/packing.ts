import type { Hospital } from './hospital.ts'
import type { Shift } from './people.ts'
import { setTypes } from './sets.ts'
import type { SetState } from './stock.ts'

/** Packs a set with its indicators; it then waits for a load. */
export function sealPack(hospital: Hospital, state: SetState, at: number, shift: Shift): void {
  const { round } = state
  if (round === null) return
  const type = setTypes[state.set.type]
  const lot = `${state.set.type === 'scope' ? 'P' : 'K'}${26_000 + Math.floor(state.rounds / 40)}`
  hospital.write({
    at,
    by: shift.packing,
    room: 'Packing',
    kind: 'pack-sealed',
    body: {
      round,
      wrap: type.wrap,
      insideIndicator: { type: '5', lot },
      outsideIndicator: { type: '1', lot: `T${lot}` },
      counted: type.sheet.map(([device, count]) => ({ device: `device:${device}`, count })),
      massKg: type.massKg,
      implant: type.implant,
    },
  })
  hospital.sealed.push({ state, at })
}
