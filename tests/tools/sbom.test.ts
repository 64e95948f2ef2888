import assert from 'node:assert/strict'
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'
import { z } from 'zod'

const root = join(import.meta.dirname, '../..')

const Bill = z.object({
  bomFormat: z.literal('CycloneDX'),
  specVersion: z.string().regex(/^1\.[5-9]$/),
  components: z.array(
    z.object({
      name: z.string(),
      version: z.string(),
      purl: z.string(),
      hashes: z.array(z.object({ alg: z.literal('SHA-512'), content: z.string().regex(/^[0-9a-f]{128}$/) })),
    }),
  ),
})
const Lock = z.object({
  packages: z.record(
    z.string(),
    z.object({ version: z.string(), integrity: z.string().optional(), resolved: z.string().optional() }),
  ),
})

/** CycloneDX as npm itself writes it, from the lock file and without asking anybody. */
function billOfMaterials(): z.infer<typeof Bill> {
  const args = ['sbom', '--package-lock-only', '--sbom-format', 'cyclonedx', '--offline']
  const made = spawnSync('npm', args, { cwd: root, encoding: 'utf8', shell: process.platform === 'win32' })
  assert.equal(made.status, 0, made.stderr)
  return Bill.parse(JSON.parse(made.stdout))
}

test('the bill of materials holds every package of the lock file with its digest, and nothing else', () => {
  const { components } = billOfMaterials()
  const { packages } = Lock.parse(JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')))
  const locked = Object.entries(packages).filter(([path]) => path !== '')
  const wanted = locked.map(([path, { version, integrity = '' }]) => {
    assert.ok(integrity.startsWith('sha512-'), `${path} is locked by its digest`)
    const digest = Buffer.from(integrity.slice('sha512-'.length), 'base64').toString('hex')
    return `${path.split('node_modules/').at(-1)}@${version} ${digest}`
  })
  const listed = components.map(({ name, version, hashes }) => `${name}@${version} ${hashes[0]?.content}`)
  assert.deepEqual([...new Set(listed)].sort(), [...new Set(wanted)].sort())
  assert.ok(components.length > 50)
  for (const { name, purl } of components) assert.ok(purl.startsWith('pkg:npm/'), name)
})

test('no package is tied to the registry of one place', () => {
  const { packages } = Lock.parse(JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')))
  assert.deepEqual(
    Object.entries(packages).filter(([, { resolved }]) => resolved !== undefined),
    [],
  )
})
