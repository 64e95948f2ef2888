import type { Bodies } from '../kinds.ts'

/** What an inspection found against an instrument, by what helps: washing, or repair. */
export function inspectionFaults(seen: Pick<Bodies['inspected'], 'cleanliness' | 'dry' | 'function' | 'insulation'>): {
  readonly unclean: boolean
  readonly broken: boolean
} {
  return {
    unclean: seen.cleanliness === 'soilSeen' || !seen.dry,
    broken: seen.function === 'faulty' || seen.insulation === 'failed',
  }
}
