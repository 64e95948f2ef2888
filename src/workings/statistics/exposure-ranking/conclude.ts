import type { Alike } from './apart.ts'
import { areRivals } from './apart.ts'
import { type Column, nameOf } from './columns.ts'

export interface Conclusion {
  readonly kind: 'association' | 'cannotTell'
  readonly reason: string
}

interface Evidence {
  readonly infected: number
  readonly notInfected: number
  readonly compared: number
  readonly level: number
  readonly lead: { readonly column: Column; readonly familyWiseP: number; readonly p: number } | undefined
  /** The group that the best ranked exposure belongs to. */
  readonly alike: readonly Column[]
  readonly test: Alike['test'] | undefined
}

/** What may be said. Never that a cause is proven: the line list shows what went together, a sample or a changed step shows the cause. */
export function conclude(evidence: Evidence): Conclusion {
  const { infected, notInfected, compared, level, lead, alike, test } = evidence
  if (infected === 0) return { kind: 'cannotTell', reason: 'No case is infected.' }
  if (notInfected === 0)
    return { kind: 'cannotTell', reason: 'Every case is infected: there is nobody to compare with.' }
  if (lead === undefined || compared === 0)
    return { kind: 'cannotTell', reason: 'No exposure was met by some cases of a stratum and not by others.' }
  const looked = `${compared} ${compared === 1 ? 'exposure' : 'exposures'} looked at`
  if (lead.familyWiseP > level) {
    return {
      kind: 'cannotTell',
      reason: `The data cannot tell: with ${infected} infected and ${looked}, even the best, ${nameOf(lead.column)}, could well be chance (family-wise p ${shown(lead.familyWiseP)}).`,
    }
  }
  if (areRivals(alike)) {
    const names = alike.map(nameOf).join(', ')
    return {
      kind: 'cannotTell',
      reason:
        `Infection goes with ${names} (family-wise p ${shown(lead.familyWiseP)}), but the same cases met them: the data cannot tell which. ${test?.says ?? ''}`.trim(),
    }
  }
  return {
    kind: 'association',
    reason: `Infection goes with ${nameOf(lead.column)} beyond chance (family-wise p ${shown(lead.familyWiseP)}, ${looked}). An association is not a proof: sample it or change it, and watch.`,
  }
}

function shown(p: number): string {
  return p < 0.001 ? p.toExponential(1) : p.toFixed(3)
}
