import { type PrionWay, prionWay } from '../catalogue/route/prion-way.ts'
import type { Facts } from '../facts.ts'
import { packName } from '../naming.ts'
import type { Found } from '../rule.ts'
import { devicesOf } from '../set-content.ts'
import { type SubjectId, subjectKey } from '../subject.ts'
import { prionFactsOf } from './patient-facts.ts'
import { patientsBefore } from './patients-before.ts'

const strictest: readonly PrionWay[] = ['discard', 'quarantine', 'prionCycle', 'routine']

export interface WayOfSet {
  readonly way: PrionWay
  readonly because: Found
}

/** The strictest way that a device of a set has to go after the patients whose soil it carries; undefined for routine. */
export function prionWayOfSet(facts: Facts, round: SubjectId<'round'>): WayOfSet | undefined {
  const devices = devicesOf(facts, round)
  // What a set holds is not known: it is taken to be critical, and nothing is said of its cleaning.
  const asked = devices.length === 0 ? [{ contact: 'critical' as const, cleanable: undefined, name: '' }] : devices
  const ways = patientsBefore(facts, round).flatMap((patient) =>
    asked.map((device) => {
      const { way, because } = prionWay(prionFactsOf(patient.facts), device.contact, device.cleanable)
      const after = `${packName(facts, round)}${device.name === '' ? '' : `, ${device.name}`}, after case ${subjectKey(patient.case)}`
      const unknown =
        patient.facts.prion === 'notKnown' && way === 'quarantine' ? ' The risk of the patient is not known.' : ''
      return { way, because: { ...because, says: `${after}: ${because.says}${unknown}` } }
    }),
  )
  const [worst] = ways
    .filter(({ way }) => way !== 'routine')
    .toSorted((a, b) => strictest.indexOf(a.way) - strictest.indexOf(b.way))
  return worst
}
