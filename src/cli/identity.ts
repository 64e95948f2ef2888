import { parseArgs } from 'node:util'
import { describeProblem } from '#units/problem.ts'
import { SiteId } from '#road/entry.ts'
import { unitPolicy } from '#road/gather.ts'
import { IdentityReason, PatientIdentity } from '#road/people/identity.ts'
import { keepIdentities } from '#road/people/limits.ts'
import { policyFrom } from '#road/policy.ts'
import { isSubjectOf, parseSubject, type SubjectId } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'
import { identityKeyFileOf } from '#journal/identities/cipher.ts'
import { copiesBeside } from '#journal/identities/copies-beside.ts'
import { openJournal } from '#journal/open-journal.ts'
import { type Place, placeFrom } from '#journal/place.ts'
import { StoreError } from '#journal/store-error.ts'
import { patientIdentities } from '#service/identities/identities.ts'
import { identitiesNotKept } from '#service/problems.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'
import { noRecordAt } from './on-unit.ts'

const usage = [
  'usage: nilgrowth identity show CASE --why REASON',
  '       nilgrowth identity keep CASE --why REASON < IDENTITY.json',
  '       nilgrowth identity erase CASE --why REASON',
  '       nilgrowth identity log [CASE]',
  '       each with [--data FILE | --database URL] [--site SITE]',
  `REASON: ${IdentityReason.options.join(', ')}`,
].join('\n')

const verbs = ['show', 'keep', 'erase', 'log'] as const
type Verb = (typeof verbs)[number]

interface Call {
  readonly verb: Verb
  readonly case: SubjectId<'case'> | undefined
  readonly why: IdentityReason | undefined
  readonly site: SiteId
  readonly at: Place
}

/**
 * Who a patient is, by right of whoever holds the store and its key. Each look is logged all the same, as that of the command
 * line.
 */
export async function runIdentity(args: string[], io: CommandIo): Promise<number> {
  const call = readArgs(args)
  if (typeof call === 'string') {
    await io.stderr.write(`${call}\n${usage}\n`)
    return exit.unusableInput
  }
  try {
    return await run(call, io)
  } catch (error) {
    if (!(error instanceof StoreError)) throw error
    await io.stderr.write(`identity: ${error.message}\n`)
    return exit.failed
  }
}

async function run({ verb, case: caseId, why, site, at }: Call, io: CommandIo): Promise<number> {
  const missing = noRecordAt(at)
  if (missing !== undefined) {
    await io.stderr.write(`identity: ${missing}\n`)
    return exit.failed
  }
  await using journal = await openJournal({ at, road: theRoad, now: clock })
  const store = journal.identities(site)
  if (verb === 'log') {
    for (const line of await store.accesses({ limit: 500, ...(caseId && { case: caseId }) }))
      await io.stdout.write(`${JSON.stringify(line)}\n`)
    return exit.ok
  }
  if (caseId === undefined || why === undefined) return exit.unusableInput
  const keyFile = process.env['NILGROWTH_IDENTITY_KEY_FILE'] || identityKeyFileOf(at)
  const identities = patientIdentities({ identities: store, site, keyFile, now: clock })
  const asked = { by: null, why }
  const refuse = async (says: string): Promise<number> => {
    await io.stderr.write(`identity: ${says}\n`)
    return exit.failed
  }
  switch (verb) {
    case 'keep': {
      const policy = policyFrom((await journal.read(site).known([unitPolicy])).get(unitPolicy))
      if (!policy.limit(keepIdentities).value) return await refuse(notKept())
      if (!(await journal.read(site).known([caseId])).has(caseId))
        return await refuse(`CASE: wanted a case on record, current value is ${JSON.stringify(caseId)}`)
      const identity = await identityFrom(io)
      if (typeof identity === 'string') return await refuse(identity)
      await identities.keep(caseId, identity, asked)
      return exit.ok
    }
    case 'erase': {
      if (!(await identities.erase(caseId, asked)))
        return await refuse(`no identity is kept for ${caseId}, so none was erased`)
      const copies = await copiesBeside(at)
      if (copies.length === 0) return exit.ok
      const says =
        'Erased here. What was kept beside the store may still hold it, encrypted; remove what is not needed:'
      await io.stdout.write(`${[says, ...copies].join('\n')}\n`)
      return exit.ok
    }
    case 'show': {
      const seen = await identities.see(caseId, asked)
      switch (seen.kind) {
        case 'seen':
          await io.stdout.write(`${JSON.stringify(seen.identity)}\n`)
          return exit.ok
        case 'none':
          return await refuse(`no identity is kept for ${caseId}`)
        case 'erased':
          return await refuse(`the identity of ${caseId} was erased at ${seen.at}`)
        case 'unreadable':
          return await refuse(`the identity of ${caseId} was encrypted by another key than ${keyFile}, or is damaged`)
      }
    }
  }
}

/** As the service answers it. */
function notKept(): string {
  const { title, detail, remedy } = identitiesNotKept()
  return [`${title}.`, detail, remedy].filter((part) => part !== undefined).join(' ')
}

async function identityFrom(io: CommandIo): Promise<PatientIdentity | string> {
  let text = ''
  for await (const chunk of io.stdin) text += typeof chunk === 'string' ? chunk : Buffer.from(chunk).toString('utf8')
  const wanted = 'JSON with name, hospitalNumber, bornOn (such as 1970-01-31) or phone'
  try {
    const parsed = PatientIdentity.safeParse(JSON.parse(text))
    if (parsed.success) return parsed.data
    // What came is a patient's, and is not repeated.
    const field = parsed.error.issues[0]?.path.join('.') || 'standard input'
    return describeProblem({ field, wanted, current: 'something else' })
  } catch {
    return describeProblem({ field: 'standard input', wanted, current: 'no JSON' })
  }
}

function readArgs(args: string[]): Call | string {
  const options = {
    data: { type: 'string' },
    database: { type: 'string' },
    site: { type: 'string' },
    why: { type: 'string' },
  } as const
  try {
    const { values, positionals } = parseArgs({ args, allowPositionals: true, options })
    const [named, caseText, ...rest] = positionals
    const verb = verbs.find((each) => each === named)
    if (verb === undefined || rest.length > 0 || (caseText === undefined && verb !== 'log'))
      return `identity: wanted ${verbs.join(', ')} and a case, current value is ${JSON.stringify(positionals.join(' '))}`
    const caseId = caseText === undefined ? undefined : caseOf(caseText)
    if (caseText !== undefined && caseId === undefined)
      return `CASE: wanted the id of a case, such as case:c-0042, current value is ${JSON.stringify(caseText)}`
    const why = IdentityReason.safeParse(values.why)
    if (!why.success && verb !== 'log')
      return `--why: wanted ${IdentityReason.options.join(', ')}, current value is ${JSON.stringify(values.why)}`
    const site = SiteId.safeParse(values.site ?? process.env['NILGROWTH_SITE'] ?? 'unit')
    if (!site.success)
      return `--site: wanted 1 to 40 small letters, digits or "-", current value is ${JSON.stringify(values.site)}`
    return { verb, case: caseId, why: why.data, site: site.data, at: placeFrom(process.env, values) }
  } catch (error) {
    return `identity: ${error instanceof Error ? error.message : String(error)}`
  }
}

function caseOf(text: string): SubjectId<'case'> | undefined {
  const subject = parseSubject(text.includes(':') ? text : `case:${text}`)
  return subject !== undefined && isSubjectOf('case', subject) ? subject : undefined
}
