import { parseArgs } from 'node:util'
import type { SubjectId } from '#road/subject.ts'
import { isSubjectOf, parseSubject } from '#road/subject.ts'
import { theRoad } from '#road/the-road.ts'
import { placeFrom } from '#journal/place.ts'
import { openJournal } from '#journal/open-journal.ts'
import { StoreError } from '#journal/store-error.ts'
import { SiteId } from '#road/entry.ts'
import { passkeysOfSite } from '#service/sign-in/passkeys.ts'
import { type SignIn, signInAt } from '#service/sign-in/sign-in.ts'
import { type CommandIo, exit } from './command.ts'
import { clock } from './journal-command.ts'

const usage =
  'usage: nilgrowth access (code | sessions | end-sessions) PERSON [--data FILE | --database URL] [--site SITE]'

/**
 * `access code PERSON` gives a person a one-time code, by right of whoever may write to the store itself: the way back in
 * when no manager can sign in. `access sessions PERSON` says where a person is signed in, `access end-sessions PERSON` ends it
 * all.
 */
export async function runAccess(args: string[], io: CommandIo): Promise<number> {
  const read = readArgs(args)
  if (typeof read === 'string') {
    await io.stderr.write(`${read}\n${usage}\n`)
    return exit.unusableInput
  }
  const { verb, person, site, at } = read
  try {
    await using journal = await openJournal({ at, road: theRoad, now: clock })
    const reader = journal.read(site)
    const known = (await reader.known([person])).get(person)
    if (known === undefined || known.left) {
      await io.stderr.write(
        `access: PERSON: wanted somebody who works here, current value is ${JSON.stringify(person)}\n`,
      )
      return exit.failed
    }
    const credentials = journal.credentials(site)
    const signIn = signInAt({
      credentials,
      passkeys: passkeysOfSite({ credentials, site, now: clock }),
      reader,
      site,
      now: clock,
      isRequired: () => Promise.resolve(true),
    })
    await io.stdout.write(await did(verb, signIn, { id: person, name: known.name }))
    return exit.ok
  } catch (error) {
    if (!(error instanceof StoreError)) throw error
    await io.stderr.write(`access: ${error.message}\n`)
    return exit.failed
  }
}

const verbs = ['code', 'sessions', 'end-sessions'] as const
type Verb = (typeof verbs)[number]

/** Does it, and gives what there is to say. */
async function did(verb: Verb, signIn: SignIn, { id, name }: { readonly id: Person; readonly name: string }) {
  switch (verb) {
    case 'code': {
      const { code, until } = await signIn.giveCode(id, null)
      return `${code}\ngood once, until ${until}, for ${name}\n`
    }
    case 'sessions': {
      const lines = (await signIn.sessionsOf(id)).map(
        ({ startedAt, how, tablet, seenAt, endsAt }) =>
          `since ${startedAt} by ${how} at ${tablet ?? 'a browser'}, last used ${seenAt}, ends by itself ${endsAt}\n`,
      )
      return lines.length === 0 ? `${name} is signed in nowhere\n` : lines.join('')
    }
    case 'end-sessions':
      return `${await signIn.endSessions(id, null, () => true)} sessions of ${name} ended\n`
  }
}

type Person = SubjectId<'person'>

interface Call {
  readonly verb: Verb
  readonly person: Person
  readonly site: SiteId
  readonly at: ReturnType<typeof placeFrom>
}

function readArgs(args: string[]): Call | string {
  const options = { data: { type: 'string' }, database: { type: 'string' }, site: { type: 'string' } } as const
  try {
    const { values, positionals } = parseArgs({ args, allowPositionals: true, options })
    const [asked, named, ...rest] = positionals
    const verb = verbs.find((each) => each === asked)
    if (verb === undefined || named === undefined || rest.length > 0)
      return `access: wanted ${verbs.join(' or ')} and a person, current value is ${JSON.stringify(positionals.join(' '))}`
    const person = parseSubject(named.includes(':') ? named : `person:${named}`)
    if (person === undefined || !isSubjectOf('person', person))
      return `PERSON: wanted the id of a person, such as person:ada, current value is ${JSON.stringify(named)}`
    const site = SiteId.safeParse(values.site ?? process.env['NILGROWTH_SITE'] ?? 'unit')
    if (!site.success)
      return `--site: wanted 1 to 40 small letters, digits or "-", current value is ${JSON.stringify(values.site)}`
    return { verb, person, site: site.data, at: placeFrom(process.env, values) }
  } catch (error) {
    return `access: ${error instanceof Error ? error.message : String(error)}`
  }
}
