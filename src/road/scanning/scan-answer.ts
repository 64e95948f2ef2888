import type { SubjectId, SubjectKind } from '../subject.ts'
import type { ScannedCode } from './read-code.ts'

/** A subject as a search shows it. */
interface FoundSubject {
  readonly subject: SubjectId
  readonly kind: SubjectKind
  readonly standing: string
  readonly title: string
  readonly exact: boolean
}

/** What may be recorded of a code that nothing on record has. */
export type ScanOffer =
  | {
      readonly record: 'lot'
      readonly gtin: string
      readonly number: string
      readonly expiresOn?: string
      readonly madeOn?: string
      /** A lot of the same product, if one is on record: what it is and what it is called. */
      readonly like?: SubjectId<'lot'>
    }
  | { readonly record: 'item'; readonly device: SubjectId<'device'>; readonly serial: string }
  | { readonly record: 'device'; readonly gtin: string }

/** GET /api/scan?code=: what a code says, what on record has it (`exact`) or may have it, and what may be recorded of it. */
export interface ScanAnswer {
  readonly read: ScannedCode
  readonly found: readonly FoundSubject[]
  readonly offers: readonly ScanOffer[]
}
