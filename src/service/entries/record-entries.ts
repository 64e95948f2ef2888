import type { FastifyReply } from 'fastify'
import { invariant } from '#units/invariant.ts'
import type { SentEntry } from '#road/entry.ts'
import { theRoad } from '#road/the-road.ts'
import type { Outcome } from '#journal/outcome.ts'
import { unusable } from '#journal/outcome.ts'
import { prepare } from '#journal/prepare.ts'
import type { ApiProblem, EntryAnswer, EntryKept } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { sendProblem } from '../problem-reply.ts'
import { idTaken, refused, unusableInput } from '../problems.ts'
import { checkReport } from './check-report.ts'

type Checked = { readonly kind: 'usable'; readonly sent: SentEntry } | Extract<Outcome, { kind: 'unusable' }>

/** Appends entries in their order; one outcome for each. What cannot be used does not keep the others back. */
export async function recordEntries(context: RecordContext, inputs: readonly unknown[]): Promise<readonly Outcome[]> {
  const checked: Checked[] = []
  for (const input of inputs) checked.push(await checkSent(context, input))
  const usable = checked.flatMap((each) => (each.kind === 'usable' ? [each.sent] : []))
  const kept = (await context.journal.appendMany(usable))[Symbol.iterator]()
  return checked.map((each) => {
    if (each.kind === 'unusable') return each
    const { value } = kept.next()
    invariant(value !== undefined, 'the journal gives one outcome for each entry')
    return value
  })
}

/** What the service asks of an entry before the journal does: that it is of this site, and that no report is made up. */
export async function checkSent(context: RecordContext, input: unknown): Promise<Checked> {
  const prepared = prepare(theRoad, input)
  if (prepared.kind === 'unusable') return prepared
  const { sent, typed } = prepared
  if (sent.site !== context.site) {
    return unusable({ field: 'site', wanted: `"${context.site}", the site of this service`, current: `"${sent.site}"` })
  }
  const problems = await checkReport(context, typed)
  return problems.length > 0 ? unusable(...problems) : { kind: 'usable', sent }
}

/** The body of the answer to one entry of a list. */
export function toAnswer(outcome: Outcome): EntryAnswer {
  switch (outcome.kind) {
    case 'kept':
    case 'alreadyKept':
      return keptAnswer(outcome)
    case 'refused':
    case 'idTaken':
    case 'unusable':
      return { outcome: outcome.kind, problem: problemOf(outcome) }
  }
}

/** Answers to one entry: 201 kept, 200 kept before, 409 or 422 not kept. */
export function answerTo(reply: FastifyReply, outcome: Outcome | undefined): FastifyReply {
  invariant(outcome !== undefined, 'one entry has one outcome')
  switch (outcome.kind) {
    case 'kept':
      return reply.code(201).send(keptAnswer(outcome))
    case 'alreadyKept':
      return reply.code(200).send(keptAnswer(outcome))
    case 'refused':
    case 'idTaken':
    case 'unusable':
      return sendProblem(reply, problemOf(outcome))
  }
}

type NotKept = Extract<Outcome, { kind: 'refused' | 'idTaken' | 'unusable' }>

export function problemOf(outcome: NotKept): ApiProblem {
  switch (outcome.kind) {
    case 'refused':
      return refused(outcome.findings)
    case 'idTaken':
      return idTaken(outcome.entry)
    case 'unusable':
      return unusableInput(outcome.problems)
  }
}

function keptAnswer({ kind, entry }: Extract<Outcome, { kind: 'kept' | 'alreadyKept' }>): EntryKept {
  return { outcome: kind, entry, findings: entry.judgement.findings }
}
