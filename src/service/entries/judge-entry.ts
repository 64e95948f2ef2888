import type { ApiProblem, EntryJudged } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { unusableInput } from '../problems.ts'
import { checkSent, problemOf } from './record-entries.ts'

/** What the rules would say of an entry now. A refusal is an answer here, not a problem: nothing was asked to be kept. */
export async function judgeEntry(
  context: RecordContext,
  input: unknown,
): Promise<EntryJudged | { readonly problem: ApiProblem }> {
  const checked = await checkSent(context, input)
  if (checked.kind === 'unusable') return { problem: unusableInput(checked.problems) }
  const outcome = await context.journal.judge(checked.sent)
  switch (outcome.kind) {
    case 'wouldBeKept':
      return { refused: false, findings: outcome.findings }
    case 'refused':
      return { refused: true, findings: outcome.findings }
    case 'alreadyKept':
      return { refused: false, findings: outcome.entry.judgement.findings }
    case 'idTaken':
    case 'unusable':
      return { problem: problemOf(outcome) }
  }
}
