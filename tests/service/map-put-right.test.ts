import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Bodies } from '#road/kinds.ts'
import { Instant } from '#road/instant.ts'
import type { CycleLogAnswer } from '#service/api-types.ts'
import { gasLogFile } from '../support/gas-log-file.ts'
import { type RunningService, runService } from '../support/running-service.ts'
import { at, openUnit, present, record } from './hand.ts'

/* A map of columns that never fitted: its logs can be read once it is put right, and the answer says by what it was read. */

const machine = 'machine:own'
let service: RunningService

before(async () => {
  service = await runService({ now: () => Instant.parse(present) })
  await openUnit(service)
})
after(() => service.close())

function registered(column: string): Bodies['machine-registered'] {
  return {
    machine,
    name: 'Gas steriliser',
    type: 'ethyleneOxideSteriliser',
    airRemoval: 'none',
    chamberLitres: 120,
    programs: ['its own'],
    windows: {
      'its own': {
        method: 'ethyleneOxide',
        windows: [{ variable: 'temperatureC', from: 50, to: 63 }],
        exposureSeconds: 3600,
      },
    },
    logMap: {
      time: { column: 'time', format: 'iso' },
      temperatures: [{ column, unit: 'C' }],
      stage: { column: 'stage' },
    },
  }
}

async function register(clock: string, column: string, corrects?: string): Promise<string> {
  const sending = corrects === undefined ? {} : { corrects }
  const answer = await record(service, 'machine-registered', clock, registered(column), sending)
  assert.equal(answer.status, 201, JSON.stringify(answer.body))
  return (answer.body as { entry: { id: string } }).entry.id
}

function readMorning() {
  const { text } = gasLogFile('asked', at('07:10'))
  return service.ask('POST', '/api/cycle-logs/read', { log: { text }, program: 'its own', machine })
}

async function readOf(): Promise<readonly [string | undefined, readonly string[] | undefined]> {
  const answer = await readMorning()
  assert.equal(answer.status, 200, JSON.stringify(answer.body))
  const { cycles, notes } = answer.body as CycleLogAnswer
  return [cycles[0]?.report.verdict, notes]
}

test('given columns of then that do not open the log, when they are put right, then it is read by those, and that is told', async () => {
  const first = await register('06:30', 'no such column')
  assert.equal((await readMorning()).status, 422)
  const second = await register('12:30', 'temp °C', first)
  const [verdict, notes] = await readOf()
  assert.equal(verdict, 'met')
  assert.equal(notes?.length, 1)
  assert.match(notes[0] ?? '', /Cycle 1: the columns that its machine was registered with when it began do not open/)
  assert.match(notes[0] ?? '', /no such column/)

  // The mass of gas, 650 mg/L, opens the log and is no temperature: only a person who knows the recorder can put that right.
  const third = await register('06:30', 'gas mg/L', second)
  assert.deepEqual(await readOf(), ['notEvaluable', undefined])
  await register('06:30', 'temp °C', third)
  assert.deepEqual(await readOf(), ['met', undefined], 'in force from the beginning, and no note')
})
