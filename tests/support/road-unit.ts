import type { EntryId, Exception, SiteId } from '#road/entry.ts'
import type { Finding } from '#road/finding.ts'
import { type Instant, instant } from '#road/instant.ts'
import type { Bodies, KindName, TypedSent } from '#road/kinds.ts'
import type { SubjectId } from '#road/subject.ts'
import { type Answer, MemoryRecord } from './memory-record.ts'
import { cleanAndDry, cycle, handWash } from './road-history-parts.ts'

const day0 = Date.parse('2026-11-02T06:00:00.000Z')

/** A small unit of two sterilisers, for stories that a test tells step by step. Each step is a minute after the last. */
export class RoadUnit {
  readonly record = new MemoryRecord()
  #now = day0
  #count = 0

  static async open(): Promise<RoadUnit> {
    const unit = new RoadUnit()
    for (const [person, role] of [
      ['ann', 'reprocessing'],
      ['sam', 'surgeonInCharge'],
    ] as const) {
      await unit.say('person-registered', { person: `person:${person}`, name: person, roles: [role] })
    }
    for (const [machine, airRemoval] of [
      ['vac', 'dynamic'],
      ['grav', 'gravity'],
    ] as const) {
      await unit.say('machine-registered', {
        machine: `machine:${machine}`,
        name: machine,
        type: 'steamSteriliser',
        airRemoval,
        chamberLitres: 300,
        programs: ['134', '121'],
      })
    }
    await unit.say('device-registered', {
      device: 'device:d',
      name: 'Grasper',
      contact: 'critical',
      steam: 'allowed',
      lumens: [],
      parts: 1,
      insulated: false,
      optic: false,
      singleUse: false,
    })
    return unit
  }

  get now(): Instant {
    return instant(this.#now)
  }

  wait(hours: number): void {
    this.#now += Math.round(hours * 3_600_000)
  }

  async say<K extends KindName>(
    kind: K,
    body: Bodies[K],
    rest: { readonly exception?: Exception; readonly corrects?: EntryId } = {},
  ): Promise<Answer & { readonly id: EntryId }> {
    this.#now += 60_000
    this.#count += 1
    const id = `019d0000-0000-7000-8000-${this.#count.toString(16).padStart(12, '0')}` as EntryId
    const head = { id, site: 'unit-a' as SiteId, kind, happenedAt: this.now, by: 'person:ann', workstation: 'bench' }
    const answer = await this.record.decide({ ...head, body, ...rest } as unknown as TypedSent, this.now)
    return { ...answer, id }
  }

  airRemoval(result: 'passed' | 'failed' = 'passed'): Promise<Answer> {
    return this.say('air-removal-tested', { machine: 'machine:vac', result, indicatorLot: 'a1' })
  }

  /** A sealed pack of a new set; gives its round. */
  async pack(name: string, over: Partial<Bodies['pack-sealed']> = {}): Promise<SubjectId<'round'>> {
    const round: SubjectId<'round'> = `round:${name}`
    await this.say('set-registered', { set: `set:${name}`, name, countSheet: [{ device: 'device:d', count: 1 }] })
    await this.say('reprocessing-started', { round, set: `set:${name}`, because: 'newSet' })
    await this.say('wash-recorded', { wash: `wash:${name}`, rounds: [round], how: handWash })
    await this.say('inspected', { round, ...cleanAndDry })
    await this.say('pack-sealed', {
      round,
      wrap: 'wrap',
      insideIndicator: { type: '5', lot: 'c' },
      outsideIndicator: { type: '1', lot: 'c' },
      counted: [{ device: 'device:d', count: 1 }],
      implant: false,
      ...over,
    })
    return round
  }

  /** A load that has run: built, logged, its indicators read, as far as the test does not say otherwise. */
  async load(name: string, rounds: readonly SubjectId<'round'>[], over: LoadStory = {}): Promise<SubjectId<'load'>> {
    const load: SubjectId<'load'> = `load:${name}`
    const program = over.program ?? '134'
    const challenge = over.biological === undefined && over.type5 === undefined ? {} : { challenge: challengeOf(over) }
    const built: Bodies['load-built'] = {
      load,
      machine: over.machine ?? 'machine:vac',
      program,
      purpose: over.purpose ?? 'goods',
      rounds: [...rounds],
      ...challenge,
    }
    await this.say('load-built', built)
    const started = this.#now
    this.wait(0.8)
    if (over.cycle !== null) {
      await this.say('cycle-logged', cycle(load, program, [started, this.#now], over.cycle ?? 'met'))
    }
    if (over.outside !== null) {
      const result = over.outside ?? 'passed'
      await this.say('chemical-read', { load, where: 'outsidePack', type: '1', result })
    }
    if (over.type5 !== undefined) {
      await this.say('chemical-read', { load, where: 'challengeDevice', type: '5', result: over.type5 })
    }
    if (over.biological !== undefined && over.biological !== 'pending') await this.read(load, over.biological)
    return load
  }

  read(load: SubjectId<'load'>, biological: 'negative' | 'growth' | 'deadControl'): Promise<Answer & { id: EntryId }> {
    return this.say('biological-read', {
      load,
      lot: 'b1',
      result: biological === 'growth' ? 'growth' : 'noGrowth',
      control: { lot: 'b1', result: biological === 'deadControl' ? 'noGrowth' : 'growth' },
      incubatedHours: 48,
    })
  }

  release(
    load: SubjectId<'load'>,
    rounds: readonly SubjectId<'round'>[],
    rest: { readonly exception?: Exception; readonly earlyImplant?: Bodies['load-decided']['earlyImplant'] } = {},
  ): Promise<Answer> {
    const { exception, earlyImplant } = rest
    return this.say(
      'load-decided',
      {
        load,
        packs: rounds.map((round) => ({ round, outcome: 'released' as const })),
        ...(earlyImplant === undefined ? {} : { earlyImplant }),
      },
      exception === undefined ? {} : { exception },
    )
  }
}

export interface LoadStory {
  readonly machine?: SubjectId<'machine'>
  readonly program?: string
  readonly purpose?: Bodies['load-built']['purpose']
  readonly cycle?: 'met' | 'notMet' | 'notEvaluable' | null
  readonly outside?: 'passed' | 'failed' | 'missing' | null
  readonly type5?: 'passed' | 'failed'
  readonly biological?: 'negative' | 'growth' | 'deadControl' | 'pending'
}

function challengeOf(story: LoadStory): NonNullable<Bodies['load-built']['challenge']> {
  return {
    ...(story.biological === undefined ? {} : { biologicalLot: 'b1' }),
    ...(story.type5 === undefined ? {} : { chemicalType: '5' as const }),
  }
}

/** The rules that stand against a decision, in their order. */
export function against(findings: readonly Finding[]): readonly string[] {
  return [
    ...new Set(findings.filter((each) => each.weight !== 'note' && each.weight !== 'caution').map((each) => each.rule)),
  ]
}
