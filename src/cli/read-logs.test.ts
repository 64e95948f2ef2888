import assert from 'node:assert/strict'
import { test } from 'node:test'
import { gasExampleInput } from '#workings/gas/example.ts'
import { washerExampleInput } from '#workings/washer/example.ts'
import type { CommandIo } from './command.ts'
import { runReadGas } from './read-gas.ts'
import { runReadWasher } from './read-washer.ts'

async function run(
  command: (args: readonly string[], io: CommandIo) => Promise<number>,
  args: readonly string[],
  stdin = '',
): Promise<{ code: number; out: string; err: string }> {
  let out = ''
  let err = ''
  const stream = async function* () {
    yield stdin
  }
  const code = await command(args, {
    stdin: stream(),
    stdout: { write: (text) => (out += text) },
    stderr: { write: (text) => (err += text) },
  })
  return { code, out, err }
}

test('read-washer prints the coldest channel and exits by the verdict', async () => {
  const met = await run(runReadWasher, ['-', '--program', 'instruments-600'], washerExampleInput.log)
  assert.equal(met.code, 0)
  assert.match(met.out, /coldest channel "T2/)
  assert.equal((await run(runReadWasher, ['-', '--program', 'instruments-3000'], washerExampleInput.log)).code, 3)
  assert.equal((await run(runReadWasher, ['-', '--program', 'nothing'], washerExampleInput.log)).code, 2)
  const withRecord = ['-', '--program', 'instruments-600', '--data', 'x.sqlite']
  assert.equal((await run(runReadWasher, withRecord, washerExampleInput.log)).code, 2, 'its limits are in no record')
})

test('read-gas exits by the verdict and says what is wrong with its arguments', async () => {
  const met = await run(runReadGas, ['-', '--program', 'dry-heat-180', '--json'], gasExampleInput.log)
  assert.equal(met.code, 0)
  assert.equal(JSON.parse(met.out).verdict, 'met')
  assert.equal((await run(runReadGas, ['-', '--program', 'ethylene-oxide'], gasExampleInput.log)).code, 3)
  const nowhere = ['-', '--program', 'dry-heat-180', '--data', '/nowhere/x.sqlite']
  assert.match((await run(runReadGas, nowhere, gasExampleInput.log)).err, /--data: wanted the file of a record/)
  assert.match((await run(runReadGas, [])).err, /^arguments: wanted read-gas/)
})
