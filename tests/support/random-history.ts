import type { EntryId, Exception, SiteId } from '#road/entry.ts'
import { type Instant, instant, millis } from '#road/instant.ts'
import type { Bodies, KindName, TypedSent } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { recallOfLoad } from '#road/sterilising/entries.ts'
import {
  people,
  correctableKinds,
  cleanAndDry,
  emergencyForm,
  handWash,
  impatience,
  indicatorRead,
  laparoscopy,
  redWound,
  corrected,
  cycle,
  registrations,
  type Steriliser,
  sterilisers,
  steamPrograms,
} from './road-history-parts.ts'
import { type SeededRandom, seededRandom } from './seeded-random.ts'

/*
 * Random histories of a unit: sets go round, cycles fail, indicators grow and are read late, entries arrive out of order
 * and are corrected, machines stop and come back. What happens is drawn from a seed; what is kept, the receiver says.
 */

export interface Receiver {
  /** A fact, or a decision; gives whether it was kept. `now` is when it arrives. */
  readonly send: (entry: TypedSent, now: Instant) => Promise<boolean>
}

const hour = 3_600_000
const site = 'unit-h' as SiteId
const begin = Date.parse('2026-01-05T06:00:00.000Z')

interface SetState {
  readonly id: SubjectId<'set'>
  round: SubjectId<'round'> | null
  rounds: number
  ready: boolean
}

export class RandomHistory {
  readonly #random: SeededRandom
  readonly #to: Receiver
  readonly #sets: SetState[]
  readonly #late: { readonly entry: TypedSent; readonly arrives: number }[] = []
  /** Entries that may be corrected, newest last. */
  readonly #correctable: TypedSent[] = []
  readonly #stopped = new Set<Steriliser>()
  readonly #failed: SubjectId<'load'>[] = []
  readonly #undecided: { readonly load: SubjectId<'load'>; readonly rounds: readonly SubjectId<'round'>[] }[] = []
  #corrected: TypedSent | undefined
  #now = begin
  #count = 0
  #loads = 0
  #cases = 0
  #lot = 1

  constructor(seed: number, to: Receiver, sets = 14) {
    this.#random = seededRandom(seed)
    this.#to = to
    this.#sets = Array.from({ length: sets }, (_, number) => ({
      id: `set:s${number}` as const,
      round: null,
      rounds: 0,
      ready: false,
    }))
  }

  get now(): Instant {
    return instant(Math.round(this.#now))
  }

  /** Lets things happen until at least so many entries have been sent. */
  async run(entries: number): Promise<void> {
    if (this.#count === 0) await this.#register()
    while (this.#count < entries) await this.#step()
    for (const { entry } of this.#late.splice(0)) await this.#to.send(entry, instant(this.#now))
  }

  async #step(): Promise<void> {
    this.#now += this.#random.between(0.2, 3) * hour
    await this.#arrivals()
    if (this.#chance(0.02)) this.#lot += 1
    const machine = this.#random.pick(sterilisers)
    if (this.#chance(0.3)) await this.#airRemoval(machine)
    if (this.#chance(0.02)) await this.#repairInService(machine)
    if (this.#stopped.has(machine) && this.#chance(0.7)) {
      await this.#prove(machine)
      return
    }
    await this.#prepare()
    await this.#load(machine, 'goods')
    if (this.#chance(0.05)) await this.#load(machine, this.#random.pick(['biologicalTest', 'qualification']))
    if (this.#chance(0.6)) await this.#case()
    if (this.#chance(0.6)) await this.#decideAgain()
    if (this.#chance(0.08)) await this.#correct()
    if (this.#chance(0.15)) await this.#recallWork()
  }

  async #register(): Promise<void> {
    for (const { kind, body } of registrations(this.#sets, this.#chance(0.5))) await this.#say(kind, body)
  }

  async #airRemoval(machine: Steriliser): Promise<void> {
    const result = this.#chance(0.9) ? ('passed' as const) : ('failed' as const)
    await this.#fact('air-removal-tested', { machine, result, indicatorLot: 'a1' })
  }

  /** A repair that nobody stops the machine for; a third of them are written down days later. */
  async #repairInService(machine: Steriliser): Promise<void> {
    const repair = this.#entry('machine-repaired', { machine, what: 'new pump', major: this.#chance(0.8) })
    if (this.#chance(0.35)) this.#late.push({ entry: repair, arrives: this.#now + this.#random.between(4, 90) * hour })
    else await this.#give(repair)
    if (this.#chance(0.3)) return
    for (let number = 0; number < 3; number += 1) {
      await this.#airRemoval(machine)
      await this.#load(machine, this.#random.pick(['qualification', 'retest']))
    }
  }

  /** Brings some sets to a sealed pack. */
  async #prepare(): Promise<void> {
    for (const set of this.#sets) {
      if (set.ready || !this.#chance(0.45)) continue
      const round: SubjectId<'round'> = `round:${set.id.slice(4)}-${set.rounds + 1}`
      const previous = set.round === null ? {} : { previousRound: set.round }
      await this.#say('reprocessing-started', {
        round,
        set: set.id,
        because: set.round === null ? 'newSet' : 'openedNotUsed',
        ...previous,
      })
      set.round = round
      set.rounds += 1
      await this.#fact('wash-recorded', { wash: `wash:${round.slice(6)}`, rounds: [round], how: handWash })
      await this.#say('inspected', { round, ...cleanAndDry })
      set.ready = await this.#say('pack-sealed', {
        round,
        wrap: 'wrap',
        insideIndicator: { type: '5', lot: 'c1' },
        outsideIndicator: { type: '1', lot: 'c1' },
        counted: [{ device: 'device:d', count: 1 }],
        implant: this.#chance(0.15),
      })
      // What arrives late was washed all the same: the pack is sealed when the wash has come in.
      if (!set.ready && this.#chance(0.5)) set.ready = true
    }
  }

  async #load(machine: Steriliser, purpose: Bodies['load-built']['purpose']): Promise<SubjectId<'load'>> {
    this.#loads += 1
    const load: SubjectId<'load'> = `load:l${this.#loads}`
    const goods = purpose === 'goods' || (purpose === 'retest' && this.#chance(0.4))
    const packs = goods ? this.#sets.filter((set) => set.ready).slice(0, this.#random.whole(1, 5)) : []
    const rounds = packs.flatMap((set) => set.round ?? [])
    for (const set of packs) set.ready = false
    const program = this.#chance(0.8) ? steamPrograms[0] : steamPrograms[1]
    const lot = `b${this.#lot}`
    const tested = purpose !== 'goods' || this.#chance(0.4)
    await this.#fact('load-built', {
      load,
      machine,
      program,
      purpose,
      rounds,
      ...(tested ? { challenge: { biologicalLot: lot, chemicalType: '5' as const } } : {}),
    })
    // Now and then a load stands for a day before it is run.
    const started = this.#now + (this.#chance(0.03) ? this.#random.between(5, 40) : 0.1) * hour
    const ended = started + 0.8 * hour
    const verdict = this.#chance(0.94) ? 'met' : this.#random.pick(['notMet', 'notEvaluable'] as const)
    if (this.#chance(0.96)) await this.#fact('cycle-logged', cycle(load, program, [started, ended], verdict), ended)
    this.#now += 0.95 * hour
    if (this.#chance(0.95)) {
      const result = this.#chance(0.97) ? 'passed' : this.#random.pick(['failed', 'missing'] as const)
      const some = rounds.length > 1 && result !== 'passed' && this.#chance(0.5) ? { rounds: rounds.slice(0, 1) } : {}
      await this.#fact('chemical-read', { load, where: 'outsidePack', type: '1', result, ...some })
      if (result !== 'passed' && 'rounds' in some) {
        await this.#fact('chemical-read', {
          load,
          where: 'outsidePack',
          type: '1',
          result: 'passed',
          rounds: rounds.slice(1),
        })
      }
    }
    if (tested) {
      await this.#fact('chemical-read', {
        load,
        where: 'challengeDevice',
        type: '5',
        result: this.#chance(0.98) ? 'passed' : 'failed',
      })
      await this.#biological(load, lot, purpose === 'retest' ? 0.2 : 0.08)
    }
    if (rounds.length > 0) {
      this.#undecided.push({ load, rounds })
      await this.#decide(load, rounds)
    }
    for (const set of packs) if (this.#chance(0.05)) set.ready = true
    return load
  }

  async #biological(load: SubjectId<'load'>, lot: string, failing: number): Promise<void> {
    if (this.#chance(0.07)) return
    const growth = this.#chance(failing)
    if (growth) this.#failed.push(load)
    const body = indicatorRead({ load, lot, growth }, this.#random)
    const read = this.#entry('biological-read', body, this.#now + 24 * hour)
    this.#late.push({ entry: read, arrives: this.#now + this.#random.between(0, 60) * hour })
  }

  async #decide(load: SubjectId<'load'>, rounds: readonly SubjectId<'round'>[]): Promise<void> {
    if (this.#chance(0.05)) return
    const early = this.#chance(0.05)
    const released = rounds.map((round) => ({ round, outcome: 'released' as const }))
    const exception = { allowedBy: this.#random.pick(people), ...impatience }
    const kept = await this.#say(
      'load-decided',
      { load, packs: released, ...(early ? { earlyImplant: emergencyForm } : {}) },
      early ? exception : undefined,
    )
    const gone: SubjectId<'round'>[] = kept ? [...rounds] : []
    if (!kept) {
      for (const round of rounds) {
        if (await this.#say('load-decided', { load, packs: [{ round, outcome: 'released' }] })) gone.push(round)
        else
          await this.#say('load-decided', {
            load,
            packs: [{ round, outcome: this.#random.pick(['quarantined', 'rejected']) }],
          })
      }
    }
    for (const round of gone) if (this.#chance(0.8)) await this.#fact('pack-stored', { round, place: 'rack 1' })
    for (const round of rounds)
      if (this.#chance(0.02)) await this.#fact('pack-condition-noted', { round, condition: 'wet' })
  }

  /** Decides once more about a load of the last days, when more is known of it. */
  async #decideAgain(): Promise<void> {
    const recent = this.#undecided.slice(-14)
    const again = recent[this.#random.whole(0, recent.length - 1)]
    if (again !== undefined) await this.#decide(again.load, again.rounds)
  }

  async #case(): Promise<void> {
    this.#cases += 1
    const each: SubjectId<'case'> = `case:c${this.#cases}`
    await this.#say('case-booked', laparoscopy(each, instant(this.#now)))
    const open = this.#sets.filter((set) => set.round !== null && !set.ready && this.#chance(0.25)).slice(0, 4)
    for (const set of open) {
      if (set.round === null) continue
      const before = set.round
      const insideIndicator = this.#chance(0.95) ? ('changed' as const) : ('notChanged' as const)
      await this.#fact('pack-opened', {
        round: before,
        case: each,
        outsideIndicator: 'changed',
        insideIndicator,
        condition: 'intact',
      })
      const round: SubjectId<'round'> = `round:${set.id.slice(4)}-${set.rounds + 1}`
      set.rounds += 1
      set.round = round
      await this.#say('use-ended', { round, set: set.id, case: each, previousRound: before })
      await this.#fact('wash-recorded', { wash: `wash:${round.slice(6)}`, rounds: [round], how: handWash })
    }
    if (this.#chance(0.1)) {
      await this.#say('wound-noted', {
        wound: `wound:w${this.#cases}`,
        case: each,
        onsetAt: instant(this.#now),
        ...redWound,
      })
    }
  }

  /** After a failure: the machine stops, is repeated, repaired, tried, and put back. */
  async #prove(machine: Steriliser): Promise<void> {
    if (this.#chance(0.2)) await this.#fact('machine-repaired', { machine, what: 'new seal', major: true })
    const repeats = this.#random.whole(1, 4)
    for (let number = 0; number < repeats; number += 1) await this.#load(machine, 'retest')
    if (machine === 'machine:s1') for (let number = 0; number < 3; number += 1) await this.#airRemoval(machine)
    this.#now += 30 * hour
    await this.#arrivals()
    if (await this.#say('machine-returned', { machine, why: 'proven again' })) this.#stopped.delete(machine)
  }

  async #recallWork(): Promise<void> {
    const load = this.#failed.at(-1)
    if (load === undefined) return
    const recall = recallOfLoad(load)
    for (const set of this.#sets.slice(0, 3)) {
      if (set.round === null || !this.#chance(0.3)) continue
      await this.#say('recall-accounted', {
        recall,
        round: set.round,
        outcome: this.#random.pick(['pulledFromShelf', 'clearedByRepeats']),
      })
    }
    await this.#say('recall-closed', { recall, cause: 'unknown', action: 'repeated' })
    if (this.#chance(0.1)) {
      const other: SubjectId<'load'> = `load:l${this.#random.whole(1, this.#loads)}`
      await this.#say('recall-opened', {
        recall: `recall:by-hand-${this.#count}`,
        load: other,
        why: 'found in an audit',
        defectProven: this.#chance(0.4),
        ...(this.#chance(0.5) ? { since: instant(this.#now - this.#random.between(0, 200) * hour) } : {}),
      })
    }
  }

  /** Corrects or withdraws something said before. */
  async #correct(): Promise<void> {
    // The newest are corrected most, and some more than once.
    const from = this.#chance(0.5) ? Math.max(0, this.#correctable.length - 5) : 0
    const again = this.#chance(0.3) ? this.#corrected : undefined
    const wrong = again ?? this.#correctable[this.#random.whole(from, this.#correctable.length - 1)]
    this.#corrected = wrong
    if (wrong === undefined) return
    const head = { by: this.#random.pick(people), corrects: wrong.id }
    if (this.#chance(0.3)) {
      await this.#give({ ...this.#entry('entry-withdrawn', { why: 'entered by mistake' }), ...head })
      return
    }
    const right = corrected(wrong, this.#random, this.#loads)
    if (right === undefined) return
    await this.#give({ ...right, id: this.#nextId(), ...head })
  }

  async #arrivals(): Promise<void> {
    const here = this.#late.filter((late) => late.arrives <= this.#now)
    for (const late of here) {
      this.#late.splice(this.#late.indexOf(late), 1)
      await this.#give(late.entry)
      if (late.entry.kind === 'biological-read' && late.entry.body.result === 'growth')
        await this.#afterGrowth(late.entry.body.load)
    }
  }

  async #afterGrowth(load: SubjectId<'load'>): Promise<void> {
    const built = this.#correctable.find((entry) => entry.kind === 'load-built' && entry.body.load === load)
    if (built?.kind !== 'load-built' || !this.#chance(0.8)) return
    const machine = built.body.machine as Steriliser
    this.#stopped.add(machine)
    await this.#say('machine-withdrawn', { machine, why: 'an indicator grew' })
  }

  #chance(probability: number): boolean {
    return this.#random.next() < probability
  }

  #nextId(): EntryId {
    this.#count += 1
    const time = Math.round(this.#now).toString(16).padStart(12, '0')
    const number = this.#count.toString(16).padStart(12, '0')
    return `${time.slice(0, 8)}-${time.slice(8)}-7000-8000-${number}` as EntryId
  }

  #entry<K extends KindName>(kind: K, body: Bodies[K], at = this.#now, exception?: Exception): TypedSent {
    const made = {
      id: this.#nextId(),
      site,
      kind,
      happenedAt: instant(Math.round(at)),
      by: this.#random.pick(people),
      workstation: 'bench',
      body,
      ...(exception === undefined ? {} : { exception }),
    } as unknown as TypedSent
    if (correctableKinds.has(kind)) this.#correctable.push(made)
    if (this.#correctable.length > 400) this.#correctable.shift()
    return made
  }

  /** Sends what happens now. */
  async #say<K extends KindName>(kind: K, body: Bodies[K], exception?: Exception): Promise<boolean> {
    return await this.#give(this.#entry(kind, body, this.#now, exception))
  }

  /** Sends a fact, which sometimes arrives days late. */
  async #fact<K extends KindName>(kind: K, body: Bodies[K], at = this.#now): Promise<void> {
    const entry = this.#entry(kind, body, at)
    if (this.#chance(0.04)) this.#late.push({ entry, arrives: this.#now + this.#random.between(0, 80) * hour })
    else await this.#give(entry)
  }

  async #give(entry: TypedSent): Promise<boolean> {
    return await this.#to.send(entry, instant(Math.max(Math.round(this.#now), millis(entry.happenedAt))))
  }
}
