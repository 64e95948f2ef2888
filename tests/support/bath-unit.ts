import assert from 'node:assert/strict'
import type { Celsius } from '#units/quantities.ts'
import { bathsInDoubt } from '#road/baths/baths-in-doubt.ts'
import type { EntryId } from '#road/entry.ts'
import { instant, millis } from '#road/instant.ts'
import type { Bodies, KindName, TypedKept } from '#road/kinds.ts'
import { packsInDoubt } from '#road/storing/packs-in-doubt.ts'
import type { SubjectId } from '#road/subject.ts'
import { cleanAndDry, handWash } from './road-history-parts.ts'
import { RoadUnit } from './road-unit.ts'

export const opa = 'ortho-phthalaldehyde-0.55' as const
/** Its label asks for no strip before each use (CDC Guideline 2008, Table 4): a pass speaks for those before it. */
export const peroxide = 'hydrogen-peroxide-7.35-peracetic-0.23' as const
const controls = { fullStrength: { tried: 3, passed: 3 }, halfStrength: { tried: 3, failed: 3 } }

/** A unit with one bath, for stories that a test tells step by step. */
export class BathUnit {
  readonly unit: RoadUnit
  readonly rounds: SubjectId<'round'>[] = []

  private constructor(unit: RoadUnit) {
    this.unit = unit
  }

  static async open(product: Bodies['bath-poured']['product'] = opa): Promise<BathUnit> {
    const unit = await RoadUnit.open()
    const form = { lumens: [], parts: 1, insulated: false, optic: true, singleUse: false }
    const device = { device: 'device:scope', name: 'Telescope', contact: 'semiCritical', steam: 'barred' } as const
    await unit.say('device-registered', { ...device, ...form, makerMethods: [{ method: 'bathDisinfect' }] })
    const later = instant(millis(unit.now) + 300 * 86_400_000)
    for (const lot of ['lot:strips', 'lot:other'] as const) {
      const bottle = { lot, product, number: lot, expiresAt: later, discardAt: later }
      // oxlint-disable-next-line no-await-in-loop: one step after the other
      await unit.say('strip-bottle-opened', { ...bottle, ...controls })
    }
    const can = { lot: 'lot:can', place: 'Wash room', litres: 8, activatedAt: unit.now, expiresAt: later } as const
    await unit.say('bath-poured', { bath: 'bath:b', product, ...can })
    return new BathUnit(unit)
  }

  strip(result: 'pass' | 'fail' = 'pass', lot: SubjectId<'lot'> = 'lot:strips') {
    return this.unit.say('strip-read', { bath: 'bath:b', lot, result, readAfterSeconds: 80 })
  }

  warm(celsius = 20) {
    return this.unit.say('bath-warmed', { bath: 'bath:b', celsius: celsius as Celsius })
  }

  /** Treats a set as the label asks, but for the strip; gives its round. */
  async treat(name: string, rinsing: Partial<Bodies['bath-rinsed']> = {}): Promise<SubjectId<'round'>> {
    const { unit } = this
    const round: SubjectId<'round'> = `round:${name}`
    await unit.say('set-registered', { set: `set:${name}`, name, countSheet: [{ device: 'device:scope', count: 1 }] })
    await unit.say('reprocessing-started', { round, set: `set:${name}`, because: 'newSet' })
    await unit.say('wash-recorded', { wash: `wash:${name}`, rounds: [round], how: handWash })
    await unit.say('inspected', { round, ...cleanAndDry })
    await this.immerse(`immersion:${name}`, round, rinsing)
    this.rounds.push(round)
    return round
  }

  /** The contact, three rinses and the decision that the set is ready. */
  async immerse(
    immersion: SubjectId<'immersion'>,
    round: SubjectId<'round'>,
    rinsing: Partial<Bodies['bath-rinsed']> = {},
  ): Promise<void> {
    const { unit } = this
    const seen = { fullyImmersed: true, lumensFilled: true, cleanedAndDry: true, implant: false } as const
    const started = { immersion, rounds: [round], bath: 'bath:b', how: 'manual', claim: 'disinfect' } as const
    await unit.say('immersion-started', { ...started, rounds: [round], mycobacteriaSuspected: false, ...seen })
    unit.wait(0.3)
    await unit.say('immersion-ended', { immersion })
    const rinse = { water: 'sterile', alcoholAndAir: false, outlet: 'Sink 1', minutes: 1, litres: 8 } as const
    for (let count = 0; count < 3; count += 1) {
      // oxlint-disable-next-line no-await-in-loop: one step after the other
      await unit.say('bath-rinsed', { immersion, ...rinse, lumenMillilitres: 100, ...rinsing })
    }
    const outcome = { outcome: 'readyForUse', urological: false, bladderCancer: 'notKnown' } as const
    await unit.say('immersion-decided', { immersion, rounds: [round], ...outcome })
  }

  async ready(name: string, rinsing: Partial<Bodies['bath-rinsed']> = {}): Promise<SubjectId<'round'>> {
    await this.warm()
    await this.strip()
    return this.treat(name, rinsing)
  }

  async use(round: SubjectId<'round'>) {
    const turned = { outsideIndicator: 'missing', insideIndicator: 'missing', condition: 'intact' } as const
    const planned = { procedure: 'X', theatre: 'T', surgeon: 'person:sam', implantPlanned: false } as const
    await this.unit.say('case-booked', { case: 'case:c', patient: 'P', ...planned, plannedAt: this.unit.now })
    return this.unit.say('pack-opened', { round, case: 'case:c', ...turned })
  }

  last<K extends KindName>(kind: K): Extract<TypedKept, { kind: K }> {
    const found = this.unit.record.entries.findLast((entry) => entry.kind === kind)
    assert.ok(found)
    return found as Extract<TypedKept, { kind: K }>
  }

  /** Corrects an entry at the time that it had. */
  async correct<K extends KindName>(kind: K, change: Partial<Bodies[K]>): Promise<void> {
    const entry = this.last(kind)
    const id = `019e0000-0000-7000-8000-${entry.seq.toString(16).padStart(12, '0')}` as EntryId
    this.unit.record.keep({ ...entry, id, corrects: entry.id, body: { ...entry.body, ...change } })
  }

  /** The rounds in doubt, by their list and by their bath: the two always agree. */
  async doubted(): Promise<readonly SubjectId<'round'>[]> {
    const { record, now } = this.unit
    const rounds = [...(await record.known(this.rounds)).values()]
    const packs = await packsInDoubt(record, rounds, now)
    const baths = await bathsInDoubt(record, [...(await record.known(['bath:b'])).values()], now)
    const said = [...packs].flatMap(([round, of]) =>
      of.some((each) => each.rule === 'treated-still-proven') ? [round] : [],
    )
    assert.equal((baths.get('bath:b') ?? []).length, said.length)
    return said
  }
}
