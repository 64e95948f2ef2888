import assert from 'node:assert/strict'
import { test } from 'node:test'
import { cycleReport } from './cycle-report.ts'
import { diceOf } from './dice.ts'
import { steriliserA } from './machines.ts'
import {
  airRemovalCycle,
  type CycleShape,
  shortDryingCycle,
  shortHoldCycle,
  soundCycle,
  steamLogText,
} from './steam-log.ts'

function reports(shape: CycleShape) {
  return Array.from({ length: 40 }, (_, index) =>
    cycleReport(steamLogText(diceOf(index)('log'), shape).text, steriliserA),
  )
}

test('a sound simulated cycle is met by the reader, every time', () => {
  for (const report of [...reports(soundCycle), ...reports(airRemovalCycle)]) {
    assert.equal(report.verdict, 'met', JSON.stringify(report))
    assert.ok((report.holdingSeconds ?? 0) > 200)
  }
})

test('a simulated cycle with a short hold is not met, every time', () => {
  for (const report of reports(shortHoldCycle)) assert.equal(report.verdict, 'notMet')
})

test('a cycle whose drying was cut short has done its work: the holding time is met', () => {
  for (const report of reports(shortDryingCycle)) assert.equal(report.verdict, 'met')
})
