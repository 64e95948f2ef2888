import type { FastifyReply } from 'fastify'
import { deeperThan, levelsAllowed } from '#units/depth.ts'
import { invariant } from '#units/invariant.ts'
import { type EntryId, SentEntry } from '#road/entry.ts'
import { kindNames, type TypedSent } from '#road/kinds.ts'
import type { Signature } from '#road/people/signature.ts'
import { theRoad } from '#road/the-road.ts'
import type { Outcome } from '#journal/outcome.ts'
import { unusable } from '#journal/outcome.ts'
import { prepare } from '#journal/prepare.ts'
import type { ApiProblem, EntryAnswer, EntryKept } from '../api-types.ts'
import type { RecordContext } from '../context.ts'
import { sendProblem } from '../problem-reply.ts'
import { idTaken, refused, unusableInput } from '../problems.ts'
import type { Authorise } from '../sign-in/authorise-entry.ts'
import { checkReport } from './check-report.ts'

type Checked =
  | { readonly kind: 'usable'; readonly sent: SentEntry; readonly typed: TypedSent }
  | Extract<Outcome, { kind: 'unusable' }>

/** An entry that whoever sends it may not record, or that is not signed. */
interface NotAllowed {
  readonly kind: 'notAllowed'
  readonly problem: ApiProblem
}
export type Recorded = Outcome | NotAllowed

/** Appends entries in their order; one outcome for each. What cannot be used does not keep the others back. */
export async function recordEntries(
  context: RecordContext,
  inputs: readonly unknown[],
  authorise: Authorise,
): Promise<readonly Recorded[]> {
  const checked: (Allowed | Extract<Outcome, { kind: 'unusable' }> | NotAllowed)[] = []
  const signed = new Map<EntryId, readonly Signature[]>()
  for (const input of inputs) {
    const each = await checkAllowed(context, input, authorise)
    if (each.kind === 'usable') signed.set(each.sent.id, each.signed)
    checked.push(each)
  }
  const usable = checked.flatMap((each) => (each.kind === 'usable' ? [each.sent] : []))
  const kept = (await context.journal.appendMany(usable, signed))[Symbol.iterator]()
  return checked.map((each) => {
    if (each.kind !== 'usable') return each
    const { value } = kept.next()
    invariant(value !== undefined, 'the journal gives one outcome for each entry')
    return value
  })
}

interface Allowed {
  readonly kind: 'usable'
  readonly sent: SentEntry
  readonly signed: readonly Signature[]
}

/** The right to record it is asked for first: whoever lacks it is told no more of the entry than that. */
async function checkAllowed(
  context: RecordContext,
  input: unknown,
  authorise: Authorise,
): Promise<Allowed | Extract<Outcome, { kind: 'unusable' }> | NotAllowed> {
  // First of all, since a schema walks what it reads by recursion; `checkSent` says what is wrong with it.
  const sent = deeperThan(input, levelsAllowed) ? undefined : SentEntry.safeParse(input).data
  const kind = kindNames.find((name) => name === sent?.kind)
  const problem = sent !== undefined && kind !== undefined ? await authorise.may(sent, kind) : undefined
  if (problem !== undefined) return { kind: 'notAllowed', problem }
  const checked = await checkSent(context, input)
  if (checked.kind === 'unusable') return checked
  const authorised = await authorise.signed(checked.sent, checked.typed)
  if ('problem' in authorised) return { kind: 'notAllowed', ...authorised }
  return { kind: 'usable', sent: checked.sent, signed: authorised.signed }
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
  return problems.length > 0 ? unusable(...problems) : { kind: 'usable', sent, typed }
}

/** The body of the answer to one entry of a list. */
export function toAnswer(outcome: Recorded): EntryAnswer {
  switch (outcome.kind) {
    case 'kept':
    case 'alreadyKept':
      return keptAnswer(outcome)
    case 'refused':
    case 'idTaken':
    case 'unusable':
    case 'notAllowed':
      return { outcome: outcome.kind, problem: problemOf(outcome) }
  }
}

/** Answers to one entry: 201 kept, 200 kept before, 409 or 422 not kept. */
export function answerTo(reply: FastifyReply, outcome: Recorded | undefined): FastifyReply {
  invariant(outcome !== undefined, 'one entry has one outcome')
  switch (outcome.kind) {
    case 'kept':
      return reply.code(201).send(keptAnswer(outcome))
    case 'alreadyKept':
      return reply.code(200).send(keptAnswer(outcome))
    case 'refused':
    case 'idTaken':
    case 'unusable':
    case 'notAllowed':
      return sendProblem(reply, problemOf(outcome))
  }
}

type NotKept = Extract<Outcome, { kind: 'refused' | 'idTaken' | 'unusable' }> | NotAllowed

export function problemOf(outcome: NotKept): ApiProblem {
  switch (outcome.kind) {
    case 'refused':
      return refused(outcome.findings)
    case 'idTaken':
      return idTaken(outcome.entry)
    case 'unusable':
      return unusableInput(outcome.problems)
    case 'notAllowed':
      return outcome.problem
  }
}

function keptAnswer({ kind, entry }: Extract<Outcome, { kind: 'kept' | 'alreadyKept' }>): EntryKept {
  return { outcome: kind, entry, findings: entry.judgement.findings }
}
