import type { EntryId, SiteId } from '#road/entry.ts'
import type { SubjectId } from '#road/subject.ts'

/** The first thing that is not as it should be. */
export type Fault =
  | { readonly part: 'chain'; readonly site: SiteId; readonly seq: number; readonly id: EntryId; readonly says: string }
  | { readonly part: 'head'; readonly site: SiteId; readonly says: string }
  | { readonly part: 'seal'; readonly site: SiteId; readonly says: string }
  | { readonly part: 'attachment'; readonly digest: string; readonly says: string }
  /** What is derived differs from what follows from the entries; a refold would put it right. */
  | {
      readonly part: 'about' | 'links' | 'known'
      readonly site: SiteId
      readonly subject: SubjectId
      readonly says: string
    }

export function describeFault(fault: Fault): string {
  switch (fault.part) {
    case 'chain':
      return `entry ${fault.seq} of site ${fault.site} (${fault.id}): ${fault.says}`
    case 'head':
      return `head of site ${fault.site}: ${fault.says}`
    case 'seal':
      return `seal of site ${fault.site}: ${fault.says}`
    case 'attachment':
      return `attachment ${fault.digest}: ${fault.says}`
    case 'about':
    case 'links':
    case 'known':
      return `${fault.part} of ${fault.subject} at site ${fault.site}: ${fault.says}; refold the journal to make it anew`
  }
}
