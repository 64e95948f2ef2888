import type { Instant } from '../../instant.ts'
import { dayIn, timeIn } from '../../local-day.ts'
import { methodFacts } from '../../catalogue/methods.ts'
import { methodOf } from '../../sterilising/method-of.ts'
import type { MachineKnown } from '../../sterilising/machine-fold.ts'
import type { LoadKnown } from '../../sterilising/load-fold.ts'
import { type RoundKnown, roundStanding, type RoundStanding } from '../../round.ts'
import { type SubjectId, subjectKey } from '../../subject.ts'

/** What is known of a pack when its label is printed. */
export interface LabelFacts {
  readonly round: RoundKnown
  readonly setName: string
  readonly unitName: string
  readonly timeZone: string
  readonly packedBy: string
  readonly load: LoadKnown | undefined
  readonly machine: MachineKnown | undefined
  /** Why it is not to be used although it was released, as things stand. */
  readonly doubts: readonly { readonly says: string }[]
  readonly printedAt: Instant
}

/** What a label says, from the most to the least important: the hand that opens the pack reads from the top. */
export interface LabelText {
  /** The code: the whole id of the round, so that a scan of it can mean nothing else. */
  readonly code: SubjectId<'round'>
  readonly title: string
  readonly key: string
  readonly standing: 'released' | 'waiting' | 'barred'
  /** Whether it may be used, in words. The word "sterile" stands here alone, and for a released pack alone. */
  readonly says: string
  readonly lines: readonly string[]
}

/** Why a pack that once was sealed is not to be used; undefined while it waits, or when it is released. */
const barred: Partial<Readonly<Record<RoundStanding, string>>> = {
  quarantined: 'DO NOT USE: held back',
  rejected: 'DO NOT USE: rejected',
  damaged: 'DO NOT USE: pack damaged',
  opened: 'DO NOT USE: already opened',
  over: 'DO NOT USE: the set went on to another round',
}

/**
 * The label of a sealed pack; undefined when no pack is sealed. It says what is known when it is printed, and no more: what
 * is printed before the load is known stays on the pack, whatever becomes of the load.
 */
export function labelText(facts: LabelFacts): LabelText | undefined {
  const { round, setName, timeZone, packedBy } = facts
  const { sealed } = round
  if (sealed === null) return undefined
  const standing = standingOf(facts)
  const day = (moment: Instant) => spokenDay(dayIn(timeZone, moment))
  const lines = [
    ...processLines(facts, standing.is, day),
    ...(sealed.implant ? ['Implant inside'] : []),
    `Packed ${day(sealed.at)} ${timeIn(timeZone, sealed.at)} by ${packedBy}`,
    ...(standing.is === 'released'
      ? []
      : [`Label printed ${day(facts.printedAt)} ${timeIn(timeZone, facts.printedAt)}`]),
    facts.unitName,
  ]
  return {
    code: round.id,
    title: setName,
    key: subjectKey(round.id),
    standing: standing.is,
    says: standing.says,
    lines: lines.filter((line) => line !== ''),
  }
}

function standingOf({ round, load, machine, doubts, printedAt }: LabelFacts): {
  readonly is: LabelText['standing']
  readonly says: string
} {
  const now = roundStanding(round)
  const bar = barred[now]
  if (bar !== undefined) return { is: 'barred', says: bar }
  // As a release is judged: at the moment that its date says a pack is past it, whatever becomes of its load.
  const useBefore = round.sealed?.useBefore
  if (useBefore !== undefined && useBefore <= printedAt) return { is: 'barred', says: 'DO NOT USE: past its date' }
  if (now !== 'released' && now !== 'onShelf')
    return {
      is: 'waiting',
      says: round.load === null ? 'Not treated yet: scan before use' : 'NOT RELEASED: scan before use',
    }
  // A release that somebody doubts, or whose machine nobody can name, is none that a label may repeat.
  if (doubts.length > 0) return { is: 'barred', says: 'DO NOT USE: its release is in doubt' }
  const method = machine === undefined ? undefined : methodOf(machine)
  if (load === undefined || method === undefined || methodFacts[method].kills !== 'sterile')
    return { is: 'barred', says: 'DO NOT USE: how it was treated is not on record' }
  return { is: 'released', says: 'Sterile unless opened, wet or torn' }
}

/** Machine, load and method, once it is in a load; when it was treated, once that is over. */
function processLines(
  { round, load, machine }: LabelFacts,
  standing: LabelText['standing'],
  day: (moment: Instant) => string,
): readonly string[] {
  const useBefore = round.sealed?.useBefore
  const until = useBefore === undefined ? [] : [`Use before ${day(useBefore)}`]
  if (load === undefined) return until
  const method = machine === undefined ? undefined : methodOf(machine)
  const where = [
    `Load ${subjectKey(load.id)}`,
    ...(machine === undefined ? [] : [machine.name || subjectKey(machine.id)]),
    ...(method === undefined ? [] : [methodFacts[method].name.toLowerCase()]),
  ].join(', ')
  if (load.cycle === null) return [where, ...until]
  const treated = standing === 'released' ? 'Sterilised' : 'Cycle ended'
  return [`${treated} ${day(load.cycle.endedAt)}`, ...until, where]
}

const months = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'] as const

/** `3 Mar 2027`: a month in letters is read the same everywhere. */
function spokenDay(day: string): string {
  const [year, month, date] = day.split('-')
  return `${Number(date)} ${months[Number(month) - 1] ?? month} ${year}`
}
