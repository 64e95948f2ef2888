import assert from 'node:assert/strict'
import { test } from 'node:test'
import { readFileSync } from 'node:fs'
import { readSheet } from 'read-excel-file/node'
import { builtScreens } from '#service/open-service.ts'
import { openUnit } from '../service/hand.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { runService } from '../support/running-service.ts'

test('a table is saved from its page, as a sheet and for a period', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  const browser = await openBrowser()
  try {
    const page = await browser.newPage({ baseURL: service.url, viewport: { width: 390, height: 844 } })
    await page.goto('/unit/tables')
    await page.getByRole('link', { name: 'People as Sheet (XLSX)' }).waitFor()
    assert.deepEqual(await sticksOut(page), [])
    assert.deepEqual(await violationsOf(page), [])
    const save = async (name: string): Promise<string> => {
      const saved = page.waitForEvent('download')
      await page.getByRole('link', { name }).click()
      return await (await saved).path()
    }
    const sheet = await readSheet(readFileSync(await save('People as Sheet (XLSX)')))
    assert.deepEqual(
      sheet.map((row) => row[1]),
      ['name', 'Ada'],
    )
    await page.getByLabel('From').fill('2001-01-01')
    await page.getByLabel('To, that day included').fill('2001-12-31')
    assert.equal(
      readFileSync(await save('People as CSV'), 'utf8')
        .trim()
        .split('\r\n').length,
      1,
    )
  } finally {
    await browser.close()
  }
})
