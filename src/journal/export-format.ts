import { z } from 'zod'
import { AttachmentDigest } from '#road/attachment.ts'
import { IdentityAccessLine, IdentityLine } from './identities/lines.ts'
import { MovedLine } from './move/moved-lines.ts'
import { Seal } from './seal/seal.ts'

/*
 * An export is NDJSON: a header, then attachments, then the entries of each site in the order of the chain, then the
 * seals. An entry is given as the text that was hashed, verbatim, so that the other side checks the same hash.
 */

export const ExportHeader = z.strictObject({ format: z.literal('nilgrowth journal'), version: z.literal(1) })
export const exportHeader: z.infer<typeof ExportHeader> = { format: 'nilgrowth journal', version: 1 }

export const AttachmentLine = z.strictObject({
  attachment: AttachmentDigest,
  /** As it goes into a header of HTTP: no end of line, nothing but ASCII. */
  mediaType: z.string().regex(/^[ -~]{1,200}$/),
  base64: z.base64(),
})

export const EntryLine = z.strictObject({ text: z.string(), hash: z.string().regex(/^[0-9a-f]{64}$/) })

export const SealLine = z.strictObject({ seal: Seal })

/** Lines of what stands beside the record, in a backup only. */
const BackupLine = z.union([IdentityLine, IdentityAccessLine, MovedLine])
export type BackupLine = z.infer<typeof BackupLine>

export const ExportLine = z.union([EntryLine, AttachmentLine, SealLine, BackupLine])
