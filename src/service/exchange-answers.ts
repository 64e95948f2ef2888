import type { ChangeAct, ListChange } from '#road/list-import/list-changes.ts'
import type { ListMapping } from '#road/list-import/mapping.ts'
import type { SubjectId } from '#road/subject.ts'
import type { Outcome } from '#journal/outcome.ts'

/** One line of a list and what it comes to. Nothing of who the patient is. */
export interface ListPreviewRow extends Omit<ListChange, 'appointment' | 'write'> {
  /** Whether the list says who the patient is. */
  readonly namesPatient: boolean
}

/** POST /api/list-import/preview: what a list would change, and the digest that confirms just that. */
export interface ListPreview {
  readonly format: 'csv' | 'icalendar' | 'hl7'
  readonly rows: readonly ListPreviewRow[]
  readonly toRecord: number
  /** How many of those to be recorded say who the patient is. */
  readonly identities: number
  readonly digest: string
  /** The headings of a CSV file, for whoever maps its columns. */
  readonly headings: readonly string[]
  readonly mapping: ListMapping
}

/** POST /api/list-import: what became of each change that was confirmed. */
export interface ListImportAnswer {
  readonly rows: readonly {
    readonly line: number
    readonly ref: string | null
    readonly act: ChangeAct
    readonly case: SubjectId<'case'> | null
    readonly outcome: Outcome['kind'] | 'notAllowed'
    readonly says: readonly string[]
  }[]
  readonly identitiesKept: number
  readonly identitiesLeftOut: number
}

/** One of GET /api/tables: a table that can be taken out, with its columns. */
export interface TableRow {
  readonly name: string
  readonly title: string
  readonly rowIs: string
  readonly periodBy: string
  readonly columns: readonly { readonly name: string; readonly type: 'text' | 'number' | 'moment' | 'yesNo' }[]
}

/** One try to tell another system. */
export interface WebhookTried {
  readonly message: string
  readonly kind: string
  readonly at: string
  readonly status: number | null
  readonly good: boolean
  readonly says: string
}

/** One of GET /api/webhooks. */
export interface WebhookRow {
  readonly id: string
  readonly url: string
  readonly kinds: readonly string[]
  readonly madeAt: string
  readonly cursor: number
  readonly failures: number
  readonly nextAt: string | null
  readonly dead: boolean
  readonly recent: readonly WebhookTried[]
  readonly behind: number
}

/** POST /api/webhooks: the only answer with the secret. */
export interface WebhookMade extends Pick<WebhookRow, 'id' | 'url' | 'kinds' | 'madeAt'> {
  readonly secret: string
}
