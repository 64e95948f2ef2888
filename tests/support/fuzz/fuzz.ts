import assert from 'node:assert/strict'
import { sample } from 'fast-check'
import { v7 } from 'uuid'
import { runMain } from '#cli/main.ts'
import { millis } from '#road/instant.ts'
import { Role } from '#road/people/entries.ts'
import { parseSubject, subjectKinds } from '#road/subject.ts'
import { ProblemAnswer } from '#service/schemas/answers.ts'
import type { CookieBrowser } from '../browser-cookies.ts'
import { seededRandom } from '../seeded-random.ts'
import { sqliteService } from '../service-engines.ts'
import { SignedUnit } from '../signed-unit.ts'
import { type FuzzRequest, type OpenApi, requestsOf } from './requests.ts'

export interface Fuzzed {
  readonly requests: number
  /** How many of each status, by route. */
  readonly statuses: ReadonlyMap<number, number>
  readonly routes: number
  readonly kept: number
}

/** What is said of an installation that lacks something, and no failure of it. */
const lacking = new Set([
  '/problems/no-backup-folder',
  '/problems/no-demonstration',
  '/problems/no-group',
  '/problems/no-label-printer',
])

/** What ends sessions, or opens an endless answer, is asked by nobody alone. */
const byNobody = new Set(['POST /api/sign-out', 'POST /api/devices'])

const noLimit = '10000000'
const atOnce = 3

/**
 * Asks every route, as each role and as nobody, with what its schemas describe and with what they do not, for so many seconds.
 * No answer is a failure of the service, every refusal is a problem that says what was wanted and nothing of the inside, every
 * answer is as its schema says (the service checks itself), and the record is whole after it.
 */
export async function fuzzService({
  seconds,
  seed,
}: {
  readonly seconds: number
  readonly seed: number
}): Promise<Fuzzed> {
  const environment = {
    NILGROWTH_RATE_SESSION: noLimit,
    NILGROWTH_RATE_ADDRESS: noLimit,
    NILGROWTH_RATE_TRIES: noLimit,
    NILGROWTH_ENTRIES_LIMIT: '262144',
  }
  const unit = await SignedUnit.open(sqliteService, environment)
  try {
    const askers = await askersOf(unit)
    const fuzzed = await askFor(unit, askers, { seconds, seed })
    await standsWhole(unit)
    return fuzzed
  } finally {
    await unit[Symbol.asyncDispose]()
  }
}

/** One person of each role, and nobody. */
async function askersOf(unit: SignedUnit): Promise<ReadonlyMap<string, CookieBrowser>> {
  const askers = new Map([['nobody', unit.browser()]])
  for (const role of Role.options) askers.set(role, await unit.person(`Self${role}`, [role]))
  return askers
}

async function askFor(
  unit: SignedUnit,
  askers: ReadonlyMap<string, CookieBrowser>,
  { seconds, seed }: { readonly seconds: number; readonly seed: number },
): Promise<Fuzzed> {
  const document = (await (await fetch(`${unit.service.url}/openapi.json`)).json()) as OpenApi
  const subjects: string[] = subjectKinds.flatMap((kind) => [`${kind}:a`, `${kind}:b`])
  const all = requestsOf(document, {
    known: (pattern) => (pattern.startsWith('^(?:') ? subjects.filter((each) => new RegExp(pattern).test(each)) : []),
    newEntryId: () => v7({ msecs: millis(unit.now()) }),
    now: () => unit.now(),
  })
  const random = seededRandom(seed)
  const statuses = new Map<number, number>()
  const routes = new Set<string>()
  const names = [...askers.keys()]
  let requests = 0
  const end = Date.now() + seconds * 1000
  const worker = async (): Promise<void> => {
    while (Date.now() < end) {
      const own = random.whole(0, 0x7f_ff_ff_ff)
      const arbitrary = all[random.whole(0, all.length - 1)] ?? assert.fail('there is a route')
      const drawn = sample(arbitrary, { seed: own, numRuns: 8 })
      for (const request of drawn) {
        if (Date.now() >= end) return
        const name = byNobody.has(request.route) ? 'nobody' : (names[random.whole(0, names.length - 1)] ?? 'nobody')
        // oxlint-disable-next-line no-await-in-loop
        const status = await askOnce(unit, askers.get(name) ?? unit.browser(), { request, name, own })
        statuses.set(status, (statuses.get(status) ?? 0) + 1)
        routes.add(request.route)
        requests += 1
        if (requests % 200 === 0) unit.pass(1)
        // oxlint-disable-next-line no-await-in-loop
        if (requests % 500 === 0) await learn(unit, subjects)
      }
    }
  }
  await Promise.all(Array.from({ length: atOnce }, worker))
  return { requests, statuses, routes: routes.size, kept: (await headOf(unit)) ?? 0 }
}

/** What has been recorded meanwhile is asked for too. */
async function learn(unit: SignedUnit, subjects: string[]): Promise<void> {
  await Promise.all([...unit.everybody].map((browser) => browser.ask('POST', '/api/me/active')))
  const entries = await unit.service.journal.read('unit' as never).entries({ afterSeq: 0, limit: 1000 })
  const seen = new Set(subjects)
  JSON.stringify(entries, (_, value: unknown) => {
    if (
      typeof value === 'string' &&
      parseSubject(value) !== undefined &&
      !value.startsWith('person:self') &&
      value !== 'person:mira'
    )
      seen.add(value)
    return value
  })
  subjects.splice(0, subjects.length, ...[...seen].slice(0, 2000))
}

async function headOf(unit: SignedUnit): Promise<number | undefined> {
  return (await unit.service.journal.read('unit' as never).head())?.seq
}

interface Once {
  readonly request: FuzzRequest
  readonly name: string
  readonly own: number
}

async function askOnce(unit: SignedUnit, browser: CookieBrowser, { request, name, own }: Once): Promise<number> {
  const body =
    typeof request.body === 'string'
      ? request.body.replaceAll('person:self', `person:self${name.toLowerCase()}`)
      : request.body
  const { status, type, text, says } = await browser.raw({ ...request, body })
  const told = `${name}: ${request.route} as ${request.method} ${request.path.slice(0, 300)} (seed ${own}) gave ${status}: ${text.slice(0, 600)}\n${String(body).slice(0, 2000)}`
  assert.ok(status < 500 || lacking.has(says ?? ''), `${told}\n${unit.service.log.slice(-3).join('\n')}`)
  assert.doesNotMatch(text, /node_modules|\.ts:\d|\\n +at |SQLITE_|syntax error at/, told)
  if (status >= 400) {
    assert.equal(type, 'application/problem+json', told)
    const problem = ProblemAnswer.safeParse(JSON.parse(text))
    assert.ok(problem.success && problem.data.status === status && problem.data.remedy !== '', told)
  }
  return status
}

/** Every entry of the record is as it was kept, and what is known is what follows from them. */
async function standsWhole(unit: SignedUnit): Promise<void> {
  let said = ''
  const write = (text: string) => (said += text)
  const io = { stdin: (async function* () {})(), stdout: { write }, stderr: { write } }
  const code = await runMain(['verify', '--data', unit.service.file], io)
  assert.equal(code, 0, said)
}
