import type { Source } from '#units/source.ts'
import type { Found } from '../rule.ts'
import type { WoundClass } from './entries.ts'
import { type Procedure, procedureFacts } from './procedures.ts'

const rank: Readonly<Record<WoundClass, number>> = { I: 1, II: 2, III: 3, IV: 4 }

interface Implanting {
  readonly implant: boolean
  /** The class that was seen, or the usual one of the operation when it is only planned. */
  readonly woundClass: WoundClass | undefined
  readonly when: 'planned' | 'placed'
}

/** From which class on an implant is decided, as the policy in force has it. */
interface From {
  readonly value: string
  readonly source: Source
}

/** What stands against an implant that nobody decided, or nothing. Screens ask it before the entry is there. */
export function implantNeedsDecision({ implant, woundClass, when }: Implanting, { value, source }: From): Found | null {
  const from = value === 'III' ? rank.III : rank.II
  if (!implant || woundClass === undefined || rank[woundClass] < from) return null
  const says =
    when === 'planned'
      ? 'An implant is planned where the wound will not be clean. Decide it beforehand: another operation, another repair, or the implant and why.'
      : 'An implant went into a wound that was not clean, and no decision for it is recorded. Record who decided it and why.'
  return { weight: 'caution', says, measured: `class ${woundClass}`, limit: `decided from class ${value}`, source }
}

/** The class that an operation usually has; undefined when its kind is not told. */
export function usualClass(category: Procedure | undefined): WoundClass | undefined {
  return category === undefined ? undefined : procedureFacts[category].usual
}
