import { z } from 'zod'

/** SHA-256 of a kept file, in hexadecimal: an entry names the bytes that it was made from. */
export const AttachmentDigest = z
  .string()
  .regex(/^[0-9a-f]{64}$/)
  .brand<'attachment'>()
export type AttachmentDigest = z.infer<typeof AttachmentDigest>
