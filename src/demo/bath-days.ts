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

/** What is treated in which bath, how warm and how long: the longer and warmer one is glutaraldehyde. */
const treatments = [
  { key: 'opa', set: 'office-scope-1', degrees: 21, contact: 13, after: 0 },
  { key: 'glut', set: 'office-scope-2', degrees: 25.5, contact: 46, after: 3 },
] as const
const spillTurn = 20

/** The baths of the unit: poured and discarded in turn, and a set treated in each when it is poured. */
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
    const retired = hospital.clock.at(workingDay + bathEvery - 1, 980)
    hospital.write({
      ...said(70),
      kind: 'bath-retired',
      at: retired,
      body: {
        bath,
        why: 'tooOld',
        neutraliser: key === 'opa' ? 'glycine' : 'bisulphite',
        disposal: 'Neutralised, then to the drain',
      },
    })
    hospital.write({
      ...said(70),
      kind: 'lot-withdrawn',
      at: retired + minutes,
      body: { lot: strips, because: 'usedUp', why: 'The last strip was read in the bath that was discarded.' },
    })
  }
  for (const bath of treatments) treat(hospital, workingDay, turn, bath)
  if (turn === spillTurn) spill(hospital, workingDay, number)
}

/** A set is washed, treated, rinsed three times and treated no further: no case came for it, so it waits as it is. */
function treat(hospital: Hospital, workingDay: number, turn: number, bathOf: (typeof treatments)[number]): void {
  const { key, set, degrees, contact } = bathOf
  const of = (each: number) => String(each).padStart(3, '0')
  const number = of(turn)
  const previous: RoundId | null = turn === 1 ? null : `round:${set}-r${of(turn - 1)}`
  const from = hospital.clock.at(workingDay, 460 + bathOf.after)
  const by = shiftOf(workingDay).wash
  const said = (after: number) => ({ at: from + after * minutes, by, room: 'Wash room' as const })
  const round = `round:${set}-r${number}` as const
  const bath = `bath:${key}-${number}` as const
  const immersion = `immersion:${key}-${number}` as const
  const out = 60 + contact
  washAnew(hospital, workingDay, { round, set: `set:${set}`, previous, from })
  hospital.write({
    ...said(56),
    kind: 'strip-read',
    body: { bath, lot: `lot:strips-${key}-${number}`, result: 'pass', readAfterSeconds: 90 },
  })
  hospital.write({ ...said(57), kind: 'bath-warmed', body: { bath, celsius: celsius(degrees) } })
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
  hospital.write({ ...said(out), kind: 'immersion-ended', body: { immersion } })
  for (const rinse of [out + 2, out + 4, out + 6]) {
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
    ...said(out + 9),
    kind: 'immersion-decided',
    body: { immersion, rounds: [round], outcome: 'readyForUse', urological: false, bladderCancer: 'notKnown' },
  })
}

/** Half a litre is spilt as the bath is filled; it is neutralised and wiped up, and nobody is hurt. */
function spill(hospital: Hospital, workingDay: number, number: string): void {
  const { wash } = shiftOf(workingDay)
  hospital.write({
    at: hospital.clock.at(workingDay, 456),
    by: wash,
    room: 'Wash room',
    kind: 'spill-recorded',
    body: {
      bath: `bath:opa-${number}`,
      litres: 0.5,
      place: 'Wash room, floor by tray 1',
      neutraliser: 'glycine',
      done: 'Neutralised for five minutes, wiped up, floor rinsed; the room aired.',
      exposed: [wash],
      protection: 'Gloves, apron, goggles',
      care: 'No complaint. Shoes washed.',
    },
  })
}
