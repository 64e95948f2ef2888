import { createHash } from 'node:crypto'
import { z } from 'zod'
import { describeProblem } from '#units/problem.ts'
import { AttachmentDigest } from '#road/attachment.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import { loadsForLog } from '#road/sterilising/loads-for-log.ts'
import { logSubject } from '#road/sterilising/entries.ts'
import type { SubjectId } from '#road/subject.ts'
import { oneAtATime } from '#journal/one-at-a-time.ts'
import { decodeLog } from '#workings/steam/decode-log.ts'
import type { RecordContext } from '../context.ts'
import { readInForce } from '../cycles/cycle-reader.ts'
import { Arrival, type ArrivalRow } from '../machine-answers.ts'

type Machine = SubjectId<'machine'>

/** What came from a machine, before anybody looked into it. */
export interface Came {
  readonly machine: Machine
  readonly from: Arrival['from']
  readonly name: string
  readonly bytes: Uint8Array
  /** When its last reading was written, as far as can be told. */
  readonly writtenAt: Instant
  readonly note: string | null
}

export interface Arrivals {
  /** Keeps what came and says what is in it. The same bytes again are the same arrival. */
  readonly take: (came: Came) => Promise<Arrival>
  /** Says that something was there which is not kept. */
  readonly setAside: (
    machine: Machine,
    arrival: Pick<Arrival, 'name' | 'bytes' | 'from'>,
    problem: string,
  ) => Promise<void>
  readonly of: (machine: Machine) => Promise<readonly Arrival[]>
  /** With the loads that it was read for, and those that it may be of; the newest first. */
  readonly rows: (machine: Machine) => Promise<readonly ArrivalRow[]>
}

/** So many are shown of a machine; what is older is in the record, where it was taken, and among the kept files. */
const mostArrivals = 200
const waitingLoads = 200

const KeptArrivals = z.array(Arrival)

type Parts = RecordContext & { readonly now: () => Instant }

export function arrivalsOf(context: Parts): Arrivals {
  const { journal, reader, site, now } = context
  const inTurn = oneAtATime()
  const noteOf = (machine: Machine): string => `arrived logs ${site} ${machine}`

  const of = async (machine: Machine): Promise<readonly Arrival[]> => {
    const text = await journal.notes.read(noteOf(machine))
    return text === undefined ? [] : KeptArrivals.parse(JSON.parse(text))
  }

  const add = (machine: Machine, arrival: Arrival): Promise<Arrival> =>
    inTurn(async () => {
      const before = await of(machine)
      const same = before.find((each) => each.id === arrival.id)
      if (same !== undefined) return same
      await journal.notes.write(noteOf(machine), JSON.stringify([arrival, ...before].slice(0, mostArrivals)))
      return arrival
    })

  const take = async (came: Came): Promise<Arrival> => {
    const { machine, bytes } = came
    const log = AttachmentDigest.parse(createHash('sha256').update(bytes).digest('hex'))
    const same = (await of(machine)).find((each) => each.id === log)
    if (same !== undefined) return same
    // Kept before it is told of: what is listed is there.
    await journal.attach(bytes, 'text/csv')
    const { from, name, note } = came
    const read = await whatIsIn(context, came)
    return await add(machine, { id: log, log, from, name, arrivedAt: now(), bytes: bytes.length, note, ...read })
  }

  const rows = async (machine: Machine): Promise<readonly ArrivalRow[]> => {
    const arrivals = await of(machine)
    const subjects = arrivals.flatMap(({ log }) => (log === null ? [] : [logSubject(log)]))
    const known = await reader.known(subjects)
    const waiting = (
      await reader.knownOfKind('load', { standings: ['built'], limit: waitingLoads, order: 'newestFirst' })
    )
      .map((row) => row.known)
      .filter((load) => load.machine === machine)
    return arrivals.map((arrival) => {
      const cycles = arrival.log === null ? [] : (known.get(logSubject(arrival.log))?.cycles ?? [])
      const takenBy = cycles.map(({ load }) => load)
      const proposals = arrival.cycles.flatMap((cycle) => loadsForLog(waiting, cycle))
      const once = proposals.filter(({ load }, place) => proposals.findIndex((each) => each.load === load) === place)
      const isOpen = takenBy.length < arrival.cycles.length
      return { ...arrival, takenBy, proposals: isOpen ? once : [] }
    })
  }

  return {
    take,
    of,
    rows,
    async setAside(machine, { name, bytes, from }, problem) {
      const id = `${from} ${name} ${bytes}`
      const nothing = { dated: false, firstReadingAt: null, cycles: [], note: null }
      await add(machine, { id, log: null, from, name, arrivedAt: now(), bytes, ...nothing, problem })
    },
  }
}

type Contents = Pick<Arrival, 'dated' | 'firstReadingAt' | 'cycles' | 'problem'>

/**
 * The cycles of a log and their times, read by the machine's own columns. What its readings are worth is not said here: that
 * depends on the programme of the load that it is of.
 */
async function whatIsIn(context: Parts, { machine, bytes, writtenAt }: Came): Promise<Contents> {
  const nothing = { dated: false, firstReadingAt: null, cycles: [] }
  const known = (await context.reader.known([machine])).get(machine)
  const [program] = known?.programs ?? []
  if (program === undefined) return { ...nothing, problem: 'machine: wanted one that is registered, with a programme' }
  const asked = { text: decodeLog(bytes), program, machine }
  const read = await readInForce(context, asked)
  if ('problems' in read) return { ...nothing, problem: read.problems.map(describeProblem).join('; ') }
  if (read.cycles.length === 0) return { ...nothing, problem: 'log: wanted at least one cycle, current value is none' }
  if (read.cycles.every((cycle) => cycle.startedAt !== null))
    return { dated: true, firstReadingAt: null, cycles: cyclesOf(read.cycles, 0), problem: null }
  // Read as if it had begun when it was written, to learn how long it is; then counted back by that.
  const again = await readInForce(context, { ...asked, startedAt: writtenAt })
  if ('problems' in again) return { ...nothing, problem: again.problems.map(describeProblem).join('; ') }
  const last = again.cycles.at(-1)?.endedAt
  const length = last === null || last === undefined ? 0 : Date.parse(last) - millis(writtenAt)
  return {
    dated: false,
    firstReadingAt: instant(millis(writtenAt) - length),
    cycles: cyclesOf(again.cycles, -length),
    problem: null,
  }
}

function cyclesOf(
  cycles: readonly { readonly cycle: number; readonly startedAt: string | null; readonly endedAt: string | null }[],
  shift: number,
): Contents['cycles'] {
  return cycles.flatMap(({ cycle, startedAt, endedAt }) =>
    startedAt === null || endedAt === null
      ? []
      : [
          {
            cycle,
            startedAt: instant(Date.parse(startedAt) + shift),
            endedAt: instant(Date.parse(endedAt) + shift),
          },
        ],
  )
}
