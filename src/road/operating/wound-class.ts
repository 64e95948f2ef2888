import type { Source } from '#units/source.ts'
import type { WoundClass } from './entries.ts'
import { type Procedure, procedureFacts } from './procedures.ts'
import { cdcWoundClass, combinedOperations } from './sources.ts'

/** What was met at the operation, as far as the wound class depends on it. */
export interface WoundFacts {
  readonly procedures: readonly Procedure[]
  /** The respiratory, alimentary, genital or urinary tract was opened under control. */
  readonly tractEntered: boolean
  readonly inflammation: 'none' | 'acuteNonPurulent' | 'purulent'
  readonly perforation: boolean
  readonly deadTissue: boolean
  readonly spill: 'none' | 'sterileBile' | 'infectedBile' | 'grossBowel'
  readonly breakInTechnique: 'none' | 'minor' | 'major'
}

export interface WoundClassReason {
  readonly woundClass: WoundClass
  readonly says: string
  readonly source: Source
}

const order: readonly WoundClass[] = ['I', 'II', 'III', 'IV']

/** Every reason that bears on the class of a wound, the weightiest first. The class is that of the first. */
export function woundClassReasons(facts: WoundFacts): readonly [WoundClassReason, ...WoundClassReason[]] {
  const usual = facts.procedures.map((procedure) => procedureFacts[procedure].usual)
  const base: WoundClassReason = {
    woundClass: highest(usual),
    says:
      facts.procedures.length > 1
        ? 'Of several operations the higher class counts.'
        : 'The class of this operation when nothing unusual is met.',
    source: facts.procedures.length > 1 ? combinedOperations : cdcWoundClass,
  }
  const met: WoundClassReason[] = conditions(facts).map(([woundClass, says]) => ({
    woundClass,
    says,
    source: cdcWoundClass,
  }))
  const [first = base, ...rest] = [...met, base].sort(
    (a, b) => order.indexOf(b.woundClass) - order.indexOf(a.woundClass),
  )
  return [first, ...rest]
}

function conditions(facts: WoundFacts): readonly (readonly [WoundClass, string])[] {
  const met: (readonly [WoundClass, string])[] = []
  if (facts.perforation) met.push(['IV', 'A viscus was perforated before the operation.'])
  if (facts.inflammation === 'purulent') met.push(['IV', 'There was pus: an infection was there already.'])
  if (facts.deadTissue) met.push(['IV', 'There was dead or gangrenous tissue.'])
  if (facts.inflammation === 'acuteNonPurulent') met.push(['III', 'There was acute inflammation without pus.'])
  if (facts.spill === 'grossBowel') met.push(['III', 'The content of the bowel spilled grossly.'])
  if (facts.spill === 'infectedBile') met.push(['III', 'Infected bile spilled.'])
  if (facts.spill === 'sterileBile') met.push(['II', 'Bile spilled that was not infected.'])
  if (facts.breakInTechnique === 'major') met.push(['III', 'There was a major break in sterile technique.'])
  if (facts.breakInTechnique === 'minor') met.push(['II', 'There was a minor break in sterile technique.'])
  if (facts.tractEntered) met.push(['II', 'A tract was opened under control.'])
  return met
}

function highest(classes: readonly WoundClass[]): WoundClass {
  return classes.reduce<WoundClass>((high, each) => (order.indexOf(each) > order.indexOf(high) ? each : high), 'I')
}
