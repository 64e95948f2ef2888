import assert from 'node:assert/strict'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { builtScreens } from '#service/open-service.ts'
import { codesOf } from '#service/labels/codes.ts'
import { openBrowser } from '../support/browser.ts'
import { runService } from '../support/running-service.ts'
import { openScreen, workAs } from '../support/screen.ts'

/** A film of one picture, in the form that the browser takes in place of a camera: the DataMatrix of a machine, on white. */
function film(file: string): void {
  const [width, height, dot] = [640, 480, 12]
  const { rows, modules } = codesOf(
    { code: 'machine:s1' as never, key: 's1', title: '', says: '', standing: 'waiting', lines: [] },
    false,
  )
  const light = Buffer.alloc(width * height, 235)
  const [left, top] = [(width - modules * dot) / 2, (height - modules * dot) / 2].map(Math.floor) as [number, number]
  for (let y = 0; y < modules * dot; y += 1) {
    for (let x = 0; x < modules * dot; x += 1) {
      if (rows[Math.floor(y / dot)]?.[Math.floor(x / dot)] === true) light[(top + y) * width + left + x] = 16
    }
  }
  const grey = Buffer.alloc((width * height) / 2, 128)
  const head = Buffer.from(`YUV4MPEG2 W${width} H${height} F10:1 Ip A1:1 C420jpeg\n`)
  writeFileSync(file, Buffer.concat([head, Buffer.from('FRAME\n'), light, grey, Buffer.from('FRAME\n'), light, grey]))
}

test('the camera reads the code of a machine and lands there; the decoder is ours, and no page may compile one', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-camera-'))
  const file = join(folder, 'film.y4m')
  film(file)
  const browser = await openBrowser([
    '--use-fake-ui-for-media-stream',
    '--use-fake-device-for-media-stream',
    `--use-file-for-fake-video-capture=${file}`,
  ])
  try {
    await using service = await runService({ screens: builtScreens })
    const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Nora Castellanos' }
    assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
    const entry = {
      id: '019d0000-0000-7000-8000-000000000001',
      site: 'unit',
      kind: 'machine-registered',
      happenedAt: new Date().toISOString(),
      by: 'person:nora-castellanos',
      workstation: 'Desk',
      body: {
        machine: 'machine:s1',
        name: 'Chamber One',
        type: 'steamSteriliser',
        airRemoval: 'dynamic',
        chamberLitres: 60,
        programs: ['p'],
      },
    }
    assert.equal((await service.ask('POST', '/api/entries', entry)).status, 201)
    await using screen = await openScreen(browser, service.url)
    const { page } = screen
    await workAs(page, 'Nora Castellanos')
    const asked: string[] = []
    page.on('request', (request) => asked.push(request.url()))
    await page.getByRole('button', { name: 'Scan with the camera' }).click()
    await page.getByRole('heading', { level: 1, name: 'Chamber One' }).waitFor()
    assert.ok(
      asked.every((url) => url.startsWith(service.url) || url.startsWith('blob:')),
      asked.join('\n'),
    )
    const refused = await page.evaluate(
      `WebAssembly.compile(new Uint8Array([0, 97, 115, 109, 1, 0, 0, 0])).then(() => 'compiled', (error) => error.name)`,
    )
    assert.equal(refused, 'CompileError')
    assert.ok(
      screen.troubles.every((trouble) => /WebAssembly|unsafe-eval/.test(trouble)),
      screen.troubles.join('\n'),
    )
  } finally {
    await browser.close()
    rmSync(folder, { recursive: true, force: true })
  }
})
