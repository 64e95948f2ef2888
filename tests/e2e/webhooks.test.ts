import assert from 'node:assert/strict'
import { once } from 'node:events'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { test } from 'node:test'
import { builtScreens } from '#service/open-service.ts'
import { openUnit, record } from '../service/hand.ts'
import { openBrowser } from '../support/browser.ts'
import { sticksOut, violationsOf } from '../support/page-check.ts'
import { runService } from '../support/running-service.ts'

test('a manager has an address told, tests it, and sees what was delivered', async () => {
  const receiver = createServer((_request, response) => void response.writeHead(204).end()).listen(0, '127.0.0.1')
  await once(receiver, 'listening')
  const environment = { NILGROWTH_WEBHOOKS_PRIVATE: 'allowed' }
  await using service = await runService({ screens: builtScreens, environment })
  await openUnit(service)
  const browser = await openBrowser()
  try {
    const page = await browser.newPage({ baseURL: service.url, viewport: { width: 390, height: 844 } })
    const url = `http://127.0.0.1:${(receiver.address() as AddressInfo).port}/hook`
    await page.goto('/unit/webhooks')
    await page.getByText('Nobody is told.').waitFor()
    await page.getByRole('textbox', { name: 'Address (https)' }).fill(url)
    await page.getByRole('button', { name: 'Tell it from now on' }).click()
    await page.getByText(/^whsec_/).waitFor()
    const hook = page.getByRole('region', { name: url })
    await hook.getByRole('button', { name: 'Send a test' }).click()
    await hook.getByText('Test: taken').waitFor()
    const kept = await record(service, 'storage-measured', '10:00', {
      unit: 'unit:unit',
      place: 'a',
      temperatureC: 20,
      humidityPercent: 40,
    })
    assert.equal(kept.status, 201)
    await hook.getByText('Last deliveries: 1').click()
    assert.deepEqual(await sticksOut(page), [])
    assert.deepEqual(await violationsOf(page), [])
    await hook.getByRole('button', { name: 'End it' }).click()
    await page.getByText('Nobody is told.').waitFor()
  } finally {
    await browser.close()
    receiver.close()
  }
})
