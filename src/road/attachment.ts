import { z } from 'zod'

/** SHA-256 of a kept file, in hexadecimal: an entry names the bytes that it was made from. */
export const AttachmentDigest = z
  .string()
  .regex(/^[0-9a-f]{64}$/, 'the 64 hexadecimal digits of a SHA-256')
  .brand<'attachment'>()
export type AttachmentDigest = z.infer<typeof AttachmentDigest>
