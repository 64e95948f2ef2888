import assert from 'node:assert/strict'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { readSeals } from '#journal/seal/seal-text.ts'
import { verifySeal } from '#journal/seal/verify-seal.ts'
import { builtScreens } from '#service/open-service.ts'
import { openUnit } from '../service/hand.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { runService } from '../support/running-service.ts'

/* The person who keeps the record seals it, saves the seal, holds the record against it, and makes a backup. */

test('the record is sealed and backed up on the Unit page, and the saved seal proves it', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-keeping-'))
  const environment = { NILGROWTH_BACKUP_FOLDER: join(folder, 'kept'), NILGROWTH_BACKUP_KEY_FILE: join(folder, 'key') }
  await using service = await runService({ screens: builtScreens, environment })
  await openUnit(service)
  const browser = await openBrowser()
  try {
    const page = await browser.newPage({ baseURL: service.url, viewport: { width: 390, height: 844 } })
    await page.goto('/unit')
    const seals = page.getByRole('region', { name: 'Seals', exact: true })
    await seals.getByRole('button', { name: 'Seal the record now' }).click()
    await seals.getByText('1 to 2', { exact: true }).waitFor()
    await seals.getByRole('button', { name: 'Hold the record against it' }).click()
    await seals.getByText('The record is as it was sealed.').waitFor()

    const backups = page.getByRole('region', { name: 'Backups', exact: true })
    await backups.getByText('None yet').waitFor()
    await backups.getByRole('button', { name: 'Make a backup now' }).click()
    await backups.getByText('Backups kept: 1').click()
    await backups.getByText(/^2 entries, /).waitFor()
    assert.deepEqual(await sticksOut(page), [])
    assert.deepEqual(await violationsOf(page), [])

    await seals.getByRole('link', { name: 'Print or save the seal' }).click()
    const saved = page.waitForEvent('download')
    await page.getByRole('link', { name: 'Save as a file' }).click()
    const file = join(folder, 'seal.txt')
    await (await saved).saveAs(file)
    assert.deepEqual(await sticksOut(page), [])
    assert.deepEqual(await violationsOf(page), [])
    const read = readSeals(readFileSync(file, 'utf8'))
    assert.ok(read.kind === 'seals' && read.seals[0] !== undefined)
    assert.deepEqual(await verifySeal({ kind: 'sqlite', file: service.file }, read.seals[0]), { kind: 'holds' })
  } finally {
    await browser.close()
    rmSync(folder, { recursive: true, force: true })
  }
})
