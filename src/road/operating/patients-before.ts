import type { Facts } from '../facts.ts'
import type { RoundKnown } from '../round.ts'
import type { SubjectId } from '../subject.ts'
import type { PatientFacts } from './patient-facts.ts'

/** A case that soiled a set, and what was noted of its patient. */
export interface PatientBefore {
  readonly case: SubjectId<'case'>
  readonly facts: PatientFacts
}

/**
 * Whose patients' soil a set may carry on this round: the case that it comes from; for a round that began without a
 * use, those of the rounds before it, back to one whose pack was released.
 */
export function patientsBefore(facts: Facts, round: SubjectId<'round'>): readonly PatientBefore[] {
  const seen = new Set<SubjectId<'round'>>()
  const cases: SubjectId<'case'>[] = []
  let at: SubjectId<'round'> | null = round
  while (at !== null && !seen.has(at)) {
    seen.add(at)
    const known: RoundKnown | undefined = facts.known(at)
    if (known === undefined) break
    if (known.began?.case) cases.push(known.began.case)
    if (known.began === null || known.began.because === 'use') break
    const previous: SubjectId<'round'> | null = known.previous
    const before: RoundKnown | undefined = previous === null ? undefined : facts.known(previous)
    if (before?.opened) cases.push(before.opened.case)
    at = before?.decision?.outcome === 'released' ? null : previous
  }
  return cases.flatMap((id) => {
    const noted = facts.known(id)?.patientFacts ?? null
    return noted === null ? [] : [{ case: id, facts: noted }]
  })
}

/** Whether mycobacteria are known or suspected in a patient whose soil one of these sets carries. */
export function mycobacteriaBefore(facts: Facts, rounds: readonly SubjectId<'round'>[]): boolean {
  return rounds.some((round) =>
    patientsBefore(facts, round).some(({ facts: { mycobacteria } }) => tellsMycobacteria(mycobacteria)),
  )
}

export function tellsMycobacteria(mycobacteria: PatientFacts['mycobacteria']): boolean {
  return mycobacteria === 'suspected' || mycobacteria === 'infection'
}
