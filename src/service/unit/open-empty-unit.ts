import { v7 } from 'uuid'
import { invariant } from '#units/invariant.ts'
import { describeProblem } from '#units/problem.ts'
import { EntryId, type SentEntry, type SiteId } from '#road/entry.ts'
import type { Instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import { type SubjectId, parseSubject } from '#road/subject.ts'
import type { Journal } from '#journal/journal.ts'
import { programItself } from '#journal/program.ts'
import type { UnitChoice } from '../api-types.ts'

type Empty = Extract<UnitChoice, { choice: 'empty' }>

/** A unit with nothing in it but its name and the manager, who enters all the rest. Gives the manager. */
export async function openEmptyUnit(
  { journal, site, now }: { readonly journal: Journal; readonly site: SiteId; readonly now: () => Instant },
  { name, timeZone, manager }: Empty,
): Promise<SubjectId<'person'>> {
  const entry = (kind: string, body: SentEntry['body']): SentEntry => ({
    id: EntryId.parse(v7()),
    site,
    kind,
    happenedAt: now(),
    by: programItself,
    workstation: 'set-up',
    body,
  })
  const unit: Bodies['unit-opened'] = { unit: `unit:${site}`, name, demonstration: false, timeZone }
  const person: Bodies['person-registered'] = { person: personIdOf(manager), name: manager, roles: ['manager'] }
  for (const outcome of await journal.appendMany([entry('unit-opened', unit), entry('person-registered', person)])) {
    const says = outcome.kind === 'unusable' ? outcome.problems.map(describeProblem).join('; ') : outcome.kind
    invariant(outcome.kind === 'kept', `a new unit takes its first entries: ${says}`)
  }
  return person.person
}

/** A key that can be read aloud, from the name where its letters allow it. */
function personIdOf(name: string): SubjectId<'person'> {
  const plain = name.normalize('NFKD').replaceAll(/\p{M}/gu, '').toLowerCase()
  const key = plain
    .replaceAll(/[^a-z0-9]+/g, '-')
    .slice(0, 40)
    .replaceAll(/^-+|-+$/g, '')
  const id: SubjectId<'person'> = `person:${key}`
  return parseSubject(id) === undefined || id === programItself ? 'person:manager' : id
}
