import { type Hospital, celsius, minutes } from './hospital.ts'
import { instantOf } from './hospital-clock.ts'
import { shiftOf } from './people.ts'
import { washAnew } from './other-rounds.ts'
import type { RoundId } from './stock.ts'

const day = 24 * 60 * minutes
/** A bath is poured anew on every eighth working day and discarded in the evening of the seventh after. */
const bathEvery = 8
const products = [
  ['opa', 'ortho-phthalaldehyde-0.55', 'Wash room, tray 1'],
  ['glut', 'glutaraldehyde-2.4', 'Wash room, tray 2'],
] as const

/** The baths of the unit: poured and discarded in turn, and a set treated in the first of them when it is poured. */
export function keepBaths(hospital: Hospital, workingDay: number): void {
  if (workingDay % bathEvery !== 1) return
  const turn = Math.floor(workingDay / bathEvery) + 1
  const number = String(turn).padStart(3, '0')
  const from = hospital.clock.at(workingDay, 455)
  const by = shiftOf(workingDay).wash
  const said = (after: number) => ({ at: from + after * minutes, by, room: 'Wash room' as const })
  const expiresAt = instantOf(from + 300 * day)
  for (const [key, product, place] of products) {
    const bath = `bath:${key}-${number}` as const
    const strips = `lot:strips-${key}-${number}` as const
    hospital.write({
      ...said(0),
      kind: 'bath-poured',
      body: {
        bath,
        product,
        lot: `lot:${key}-can-${number}`,
        place,
        litres: 10,
        activatedAt: instantOf(from),
        expiresAt,
      },
    })
    hospital.write({
      ...said(2),
      kind: 'strip-bottle-opened',
      body: {
        lot: strips,
        product,
        number: `${key.toUpperCase()}-${number}`,
        expiresAt,
        discardAt: instantOf(from + 90 * day),
        fullStrength: { tried: 3, passed: 3 },
        halfStrength: { tried: 3, failed: 3 },
      },
    })
    hospital.write({
      ...said(70),
      kind: 'bath-retired',
      at: hospital.clock.at(workingDay + bathEvery - 1, 980),
      body: {
        bath,
        why: 'tooOld',
        neutraliser: key === 'opa' ? 'glycine' : 'bisulphite',
        disposal: 'Neutralised, then to the drain',
      },
    })
  }
  treat(hospital, workingDay, number, turn === 1 ? null : `round:office-scope-1-r${String(turn - 1).padStart(3, '0')}`)
}

/** A set is washed, treated, rinsed three times and treated no further: no case came for it, so it waits as it is. */
function treat(hospital: Hospital, workingDay: number, number: string, previous: RoundId | null): void {
  const from = hospital.clock.at(workingDay, 460)
  const by = shiftOf(workingDay).wash
  const said = (after: number) => ({ at: from + after * minutes, by, room: 'Wash room' as const })
  const round = `round:office-scope-1-r${number}` as const
  const bath = `bath:opa-${number}` as const
  const immersion = `immersion:opa-${number}` as const
  washAnew(hospital, workingDay, { round, set: 'set:office-scope-1', previous, from })
  hospital.write({
    ...said(56),
    kind: 'strip-read',
    body: { bath, lot: `lot:strips-opa-${number}`, result: 'pass', readAfterSeconds: 90 },
  })
  hospital.write({ ...said(57), kind: 'bath-warmed', body: { bath, celsius: celsius(21) } })
  hospital.write({
    ...said(60),
    kind: 'immersion-started',
    body: {
      immersion,
      bath,
      rounds: [round],
      claim: 'disinfect',
      how: 'manual',
      fullyImmersed: true,
      lumensFilled: true,
      cleanedAndDry: true,
      implant: false,
      mycobacteriaSuspected: false,
    },
  })
  hospital.write({ ...said(73), kind: 'immersion-ended', body: { immersion } })
  for (const rinse of [75, 77, 79]) {
    hospital.write({
      ...said(rinse),
      kind: 'bath-rinsed',
      body: {
        immersion,
        water: 'sterile',
        outlet: 'outlet:final-rinse',
        minutes: 1,
        litres: 8,
        lumenMillilitres: null,
        alcoholAndAir: false,
      },
    })
  }
  hospital.write({
    ...said(82),
    kind: 'immersion-decided',
    body: { immersion, rounds: [round], outcome: 'readyForUse', urological: false, bladderCancer: 'notKnown' },
  })
}
