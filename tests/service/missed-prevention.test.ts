import assert from 'node:assert/strict'
import { execFile } from 'node:child_process'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { promisify } from 'node:util'
import { z } from 'zod'
import { Instant, instant } from '#road/instant.ts'
import type { Bodies } from '#road/kinds.ts'
import type { RatesBy, Suspects } from '#service/api-types.ts'
import type { RunningService } from '../support/running-service.ts'
import { answerOf, caseId, keep, runWoundUnit } from '../support/wound-store.ts'

/*
 * A measure that was not done, from the entry in theatre to its place among the suspects: what was noted as missed is an
 * exposure, what did not apply or was never noted is none, and the few infections leave the interval as wide as it is.
 */

/** The last evening of a month of thirty days: all operations lie in one month, so there is one table to check by hand. */
const present = '2026-06-30T18:00:00.000Z'
const now = Date.parse(present)
const days = Array.from({ length: 28 }, (_, index) => index + 1)
/** Gloves were not changed in six; four of the five infected are among them. */
const notChanged = [26, 22, 18, 14, 10, 6]
const infected = [26, 22, 18, 14, 11]
const neverNoted = [3, 9]
const noImplant = [5, 13]

const Ranked = z.object({
  ranking: z.object({ infected: z.int(), ranked: z.array(z.object({ id: z.string().nullable() })) }),
})

let service: RunningService

before(async () => {
  service = await runWoundUnit({ present, days, infected })
  for (const each of days) {
    if (neverNoted.includes(each)) continue
    const gloves = notChanged.includes(each) ? 'notDone' : noImplant.includes(each) ? 'notApplicable' : 'done'
    const measures: Bodies['prevention-noted']['measures'] = {
      glovesChangedBeforeImplant: gloves,
      warmth: each % 7 === 0 ? 'notDone' : 'done',
    }
    const at = instant(now - each * 86_400_000 + 2 * 3_600_000)
    // oxlint-disable-next-line no-await-in-loop: in the order of the days
    await keep(service, 'prevention-noted', at, { case: caseId(each), measures })
  }
})

after(async () => {
  await service.close()
})

const get = <T>(path: string): Promise<T> => answerOf<T>(service, path)

test('the planted "gloves not changed before the implant" comes first, with its exact table, p and interval', async () => {
  const { ranking, recalls, lines } = await get<Suspects>('/api/wounds/suspects?days=30&permutations=9999')
  const [first] = ranking.ranked
  assert.deepEqual([first?.type, first?.id], ['missedPrevention', 'glovesChangedBeforeImplant'])
  assert.partialDeepStrictEqual(first, {
    casesExposed: 4,
    nonCasesExposed: 2,
    casesUnexposed: 1,
    nonCasesUnexposed: 21,
    strataThatTell: 1,
  })
  // Fisher's exact tail by hand: [C(6,4) C(22,1) + C(6,5)] / C(28,5) = (330 + 6) / 98280.
  assert.ok(Math.abs((first?.p ?? 1) - 336 / 98_280) < 1e-12, String(first?.p))
  assert.equal(ranking.conclusion, 'association')
  assert.match(ranking.reason, /not a proof/)
  // Five infections: the odds may be three times as high, or three hundred times.
  const [low, high] = first?.oddsRatioLimits ?? [0, 0]
  assert.ok(low > 1 && low < 4 && typeof high === 'number' && high > 100, `${low} to ${high}`)
  assert.ok((first?.familyWiseP ?? 0) >= (first?.p ?? 1) && (first?.familyWiseP ?? 1) < 0.05)
  // Nothing of a missed measure stays behind in other packs.
  assert.deepEqual(recalls['missedPrevention glovesChangedBeforeImplant'], { recalls: [], without: 'case' })
  const met = lines.filter((line) => line.met.includes('missedPrevention glovesChangedBeforeImplant'))
  assert.deepEqual(new Set(met.map((line) => line.case)), new Set(notChanged.map((each) => caseId(each))))
})

test('two infections, one of them after the missed measure: the same record cannot tell, and says so', async () => {
  await keep(service, 'investigation-opened', Instant.parse(present), {
    investigation: 'investigation:two',
    because: 'worry',
    wounds: ['wound:d26', 'wound:d11'],
    why: 'Two wounds after hernia mesh',
    lead: 'person:ada',
  })
  const { ranking } = await get<Suspects>('/api/wounds/suspects?investigation=investigation:two')
  assert.deepEqual([ranking.infected, ranking.cases, ranking.conclusion], [2, 25, 'cannotTell'])
  assert.match(ranking.reason, /could well be chance/)
  // Without the other three infected, three of 25 missed it: 1 - C(22,2) / C(25,2) = 69 / 300.
  const gloves = ranking.ranked.find(({ id }) => id === 'glovesChangedBeforeImplant')
  assert.ok(Math.abs((gloves?.p ?? 1) - 69 / 300) < 1e-12, String(gloves?.p))
})

test('completeness stands beside it: what was never noted is not known, what did not apply is neither', async () => {
  const { prevention, preventionComplete } = await get<RatesBy>('/api/wounds/rates?days=30')
  assert.deepEqual(
    prevention.filter(({ measure }) => measure === 'glovesChangedBeforeImplant'),
    [{ measure: 'glovesChangedBeforeImplant', done: 18, notDone: 6, unknown: 2 }],
  )
  assert.equal(preventionComplete, 0)
})

test('the command line ranks the same measure first, from the same record', async () => {
  const main = join(import.meta.dirname, '../../src/cli/main.ts')
  const args = [main, 'wounds', 'suspects', '--days', '3650', '--json']
  const { stdout } = await promisify(execFile)(process.execPath, args, {
    env: { ...process.env, NILGROWTH_DATA: service.file },
    maxBuffer: 64 * 1024 * 1024,
  })
  const { ranking } = Ranked.parse(JSON.parse(stdout))
  assert.equal(ranking.ranked[0]?.id, 'glovesChangedBeforeImplant')
  assert.equal(ranking.infected, infected.length)
})
