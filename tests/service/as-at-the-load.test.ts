import assert from 'node:assert/strict'
import { after, test } from 'node:test'
import { Instant } from '#road/instant.ts'
import { washerExampleInput, washerExampleOutput } from '#workings/washer/example.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { postgresService, sqliteService } from '../support/service-engines.ts'
import { entryOf, furnishOneSet, keepLog, openUnit, present, record } from './hand.ts'

/*
 * What ran is judged by what its machine was then, on both engines: goods of a steriliser that was out and is back, and the
 * log of a washer whose columns were named anew since.
 */

const postgres = await postgresService()
after(() => postgres[Symbol.asyncDispose]())

const steriliser = {
  machine: 'machine:s' as const,
  name: 'Steriliser',
  type: 'steamSteriliser' as const,
  airRemoval: 'gravity' as const,
  chamberLitres: 100,
  programs: ['121'] as [string],
}

async function kept(...what: Parameters<typeof record>): Promise<string> {
  const answer = await record(...what)
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
  return (answer.body as { entry: { id: string } }).entry.id
}

/** Stopped at 08:00, proven by three tests, back at 12:00. */
async function stopAndProve(service: RunningService): Promise<void> {
  const { machine } = steriliser
  await kept(service, 'machine-withdrawn', '08:00', { machine, why: 'it leaks' })
  for (const number of [1, 2, 3]) {
    const load = `load:q${number}` as const
    const built = { load, machine, program: '121', purpose: 'retest' as const, rounds: [] }
    const control = { lot: 'b', result: 'growth' as const }
    const read = { load, lot: 'b', result: 'noGrowth' as const, control, incubatedHours: 48 }
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await kept(service, 'load-built', `09:0${number}`, built)
    // oxlint-disable-next-line no-await-in-loop: one step after the other
    await kept(service, 'biological-read', `11:0${number}`, read)
  }
  await kept(service, 'machine-returned', '12:00', { machine, why: 'proven' })
}

for (const engine of [sqliteService, postgres]) {
  const start = async (): Promise<RunningService> => {
    const service = await runService({ now: () => Instant.parse(present), environment: await engine.newRecord() })
    await openUnit(service)
    await furnishOneSet(service)
    return service
  }

  test(`goods that ran while their steriliser was out are not released when it is back: ${engine.name}`, async () => {
    await using service = await start()
    await kept(service, 'machine-registered', '01:10', steriliser)
    const goods = {
      machine: steriliser.machine,
      program: '121',
      purpose: 'goods' as const,
      rounds: ['round:a' as const],
    }
    await stopAndProve(service)
    const releaseOf = async (load: 'load:before' | 'load:out' | 'load:after', built: string) => {
      await record(service, 'load-built', built, { ...goods, load })
      const packs = [{ round: 'round:a' as const, outcome: 'released' as const }]
      return JSON.stringify((await record(service, 'load-decided', '15:00', { load, packs })).body)
    }
    assert.match(await releaseOf('load:out', '10:00'), /release-from-working-machine/)
    assert.doesNotMatch(await releaseOf('load:before', '07:30'), /release-from-working-machine/)
    assert.doesNotMatch(await releaseOf('load:after', '13:00'), /release-from-working-machine/)
  })

  test(`a wash that is entered late is read by the columns that its washer had: ${engine.name}`, async () => {
    await using service = await start()
    const mapOf = (first: string) => ({
      time: { column: 'A', format: 'seconds' as const },
      temperatures: [{ column: first, unit: 'C' as const }],
      stage: { column: 'B' },
    })
    const text = washerExampleInput.log.replace('seconds;stage;T1 (°C);T2 (°C)', 'A;B;C;D')
    const washer = {
      ...steriliser,
      machine: 'machine:w' as const,
      type: 'washer' as const,
      airRemoval: 'none' as const,
    }
    const corrects = await kept(service, 'machine-registered', '06:00', { ...washer, logMap: mapOf('D') })
    await kept(service, 'machine-registered', '12:00', { ...washer, logMap: mapOf('C') }, { corrects })
    const log = await keepLog(service, text)
    const a0Seconds = Math.round(washerExampleOutput.a0Seconds)
    const wash = async (clock: string, coldestChannel: string) => {
      const how = { kind: 'washer', machine: washer.machine, program: '121', takenApart: true, log, a0Seconds }
      const body = {
        wash: `wash:${clock.slice(0, 2)}${coldestChannel}`,
        rounds: ['round:a'],
        how: { ...how, coldestChannel },
      }
      return (await service.ask('POST', '/api/entries', entryOf('wash-recorded', clock, body as never))).status
    }
    assert.deepEqual([await wash('07:30', 'D'), await wash('07:30', 'C')], [201, 422])
    assert.deepEqual([await wash('13:30', 'C'), await wash('13:30', 'D')], [201, 422])
  })
}
