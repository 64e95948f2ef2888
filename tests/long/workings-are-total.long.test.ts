import assert from 'node:assert/strict'
import { test } from 'node:test'
import { Worker } from 'node:worker_threads'
import { sample } from 'fast-check'
import { workings } from '#workings/registry.ts'
import { jsonSchemaOf } from '#service/json-schema-of.ts'
import { seededRandom } from '../support/seeded-random.ts'
import { valuesOf } from '../support/fuzz/schema-values.ts'

/*
 * Every working is total over what it takes: whatever its own schema allows ends in an answer or in what was wanted, and never in
 * a failure. What goes on for longer than the service would wait is ended, and counts as neither.
 */

const patience = 5000
const thread = `
import { parentPort, workerData } from 'node:worker_threads'
const { findWorking } = await import(workerData)
parentPort.on('message', ({ id, input }) => {
  try {
    parentPort.postMessage(findWorking(id).run(input).kind)
  } catch (error) {
    parentPort.postMessage('failed: ' + error.stack)
  }
})`

function newThread(): Worker {
  const registry = new URL('../../src/workings/registry.ts', import.meta.url).href
  const resourceLimits = { maxOldGenerationSizeMb: 2048 }
  return new Worker(new URL(`data:text/javascript,${encodeURIComponent(thread)}`), {
    workerData: registry,
    resourceLimits,
  })
}

function ask(worker: Worker, id: string, input: unknown): Promise<string> {
  return new Promise((resolve) => {
    const end = (said: string): void => {
      clearTimeout(timer)
      worker.off('message', end).off('error', onError)
      resolve(said)
    }
    const onError = (error: unknown): void => end(`failed: ${String(error)}`)
    const timer = setTimeout(() => end('long'), patience)
    worker.on('message', end).on('error', onError)
    // oxlint-disable-next-line unicorn/require-post-message-target-origin
    worker.postMessage({ id, input })
  })
}

test('whatever a working takes by its schema, it answers or says what was wanted', async (t) => {
  const seconds = Number(process.env['NILGROWTH_FUZZ_SECONDS'] ?? 1200)
  const seed = Number(process.env['NILGROWTH_FUZZ_SEED'] ?? Date.now() % 0x7f_ff_ff_ff)
  const random = seededRandom(seed)
  const counts = new Map<string, number>()
  const long = new Set<string>()
  const end = Date.now() + seconds * 1000
  let worker = newThread()
  for (let n = 0; Date.now() < end; n += 1) {
    const { id, input: schema } = workings[n % workings.length] ?? assert.fail('there are workings')
    const own = random.whole(0, 0x7f_ff_ff_ff)
    const [input] = sample(
      valuesOf(jsonSchemaOf(schema, 'input'), () => []),
      { seed: own, numRuns: 1 },
    )
    // oxlint-disable-next-line no-await-in-loop
    const said = await ask(worker, id, input)
    assert.ok(!said.startsWith('failed'), `${id} (seed ${own}) ${JSON.stringify(input)?.slice(0, 2000)}\n${said}`)
    counts.set(said, (counts.get(said) ?? 0) + 1)
    if (said !== 'long') continue
    long.add(id)
    // oxlint-disable-next-line no-await-in-loop
    await worker.terminate()
    worker = newThread()
  }
  await worker.terminate()
  t.diagnostic(
    `seed ${seed}: ${JSON.stringify(Object.fromEntries(counts))}; longer than ${patience} ms: ${[...long].join(', ')}`,
  )
  assert.ok((counts.get('output') ?? 0) > seconds, 'most of what is asked is answered')
})
