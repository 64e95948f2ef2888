import { z } from 'zod'
import { Finding } from '#road/finding.ts'
import { Judgement, SentEntry } from '#road/entry.ts'
import { Instant } from '#road/instant.ts'
import { Signature } from '#road/people/signature.ts'
import { ProblemAnswer } from './answers.ts'

export const KeptEntryAnswer = z.object({
  ...SentEntry.shape,
  seq: z.int(),
  recordedAt: Instant,
  judgement: Judgement,
  signed: z.array(Signature).optional(),
  previousHash: z.string(),
  hash: z.string(),
})

export const EntryKeptAnswer = z.object({
  outcome: z.enum(['kept', 'alreadyKept']),
  entry: KeptEntryAnswer,
  findings: z.array(Finding),
})

export const EntryAnswers = z.array(
  z.union([
    EntryKeptAnswer,
    z.object({ outcome: z.enum(['refused', 'idTaken', 'unusable', 'notAllowed']), problem: ProblemAnswer }),
  ]),
)

export const EntryJudgedAnswer = z.object({ refused: z.boolean(), findings: z.array(Finding) })

export const EntriesPageAnswer = z.object({ entries: z.array(KeptEntryAnswer), next: z.int().nullable() })
