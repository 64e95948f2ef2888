import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { EntriesPage } from '#service/api-types.ts'
import { builtScreens } from '#service/open-service.ts'
import { entryOf, openUnit } from '../service/hand.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { runService } from '../support/running-service.ts'

/* A coordinator brings tomorrow's list from a spreadsheet: maps it, looks at it, and confirms it. */

const list = `No,Begin,Room,Who,What
17,2026-12-01 08:30,Theatre 1,Dr. Okafor,Hernia repair
18,soon,Theatre 1,Dr. Okafor,Hernia repair
`

test('a list of another system is mapped, looked at, and recorded once it is confirmed', async () => {
  await using service = await runService({ screens: builtScreens })
  await openUnit(service)
  const count = async (): Promise<number> =>
    ((await service.ask('GET', '/api/entries?limit=1000')).body as EntriesPage).entries.length
  const surgeon = entryOf('person-registered', '07:00', {
    person: 'person:sana',
    name: 'Sana Okafor',
    roles: ['surgeonInCharge', 'theatre'],
  })
  const registered = await service.ask('POST', '/api/entries', surgeon)
  assert.equal(registered.status, 201, JSON.stringify(registered.body))
  const before = await count()
  const browser = await openBrowser()
  try {
    const page = await browser.newPage({ baseURL: service.url, viewport: { width: 390, height: 844 } })
    await page.goto('/list')
    await page.getByRole('link', { name: 'List from another system' }).click()
    await page.getByLabel('File').setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer: Buffer.from(list) })
    await page.getByText(/no column was named for ref/).waitFor()
    for (const [label, heading] of [
      ['Number of the operation there', 'No'],
      ['Begins (date and time)', 'Begin'],
      ['Theatre', 'Room'],
      ['Surgeon', 'Who'],
      ['Operation', 'What'],
    ] as const)
      await page.getByRole('combobox', { name: label, exact: true }).selectOption(heading)
    await page.getByRole('button', { name: 'Keep and look again' }).click()
    await page.getByRole('combobox', { name: 'Dr. Okafor' }).selectOption({ label: 'Sana Okafor' })
    await page.getByRole('button', { name: 'Keep and look again' }).click()
    await page.getByText('1 to record, 1 cannot be read.').waitFor()
    assert.deepEqual(await sticksOut(page), [])
    assert.deepEqual(await violationsOf(page), [])
    assert.equal(await count(), before, 'a look records nothing')
    await page.getByRole('button', { name: 'Choose who is working' }).click()
    await page.getByRole('dialog').getByRole('button', { name: 'Sana Okafor' }).click()
    await page.getByRole('button', { name: 'Record 1 change' }).click()
    await page.getByText('1 recorded.').waitFor()
    assert.equal(await count(), before + 1)
    await page.getByLabel('File').setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer: Buffer.from(list) })
    await page.getByText('0 to record, 1 cannot be read.').waitFor()
    assert.deepEqual(await violationsOf(page), [])
  } finally {
    await browser.close()
  }
})
