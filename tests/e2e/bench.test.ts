import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import type { Browser } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { violationsOf } from '../support/page-check.ts'
import { picturesIn } from '../support/pictures.ts'
import { runService } from '../support/running-service.ts'
import { noTroubles, openScreen } from '../support/screen.ts'

/* Every working can be tried on the Bench: by a form that is made from what it asks for. */

const look = picturesIn(process.env['BENCH_PICTURES'])
let browser: Browser
before(async () => {
  browser = await openBrowser()
})
after(() => browser.close())

test('what one use costs is tried by a form: one figure is changed, a bad one is refused by name, a picture is drawn of a column', async () => {
  await using service = await runService({ screens: builtScreens })
  const choice = { choice: 'empty', name: 'Harbour Road', timeZone: 'UTC', manager: 'Nora Castellanos' }
  assert.equal((await service.ask('POST', '/api/unit', choice)).status, 202)
  await using screen = await openScreen(browser, service.url)
  const { page } = screen
  await page.goto('/bench?find=cost-per-use')
  await page.getByText('Cost of one use').click()
  const form = page.getByRole('form', { name: 'Try it: Cost of one use' })
  await form.getByRole('button', { name: 'Try it' }).click()
  const perUse = page.getByRole('region', { name: 'Per use' })
  await perUse.getByText('15.5', { exact: true }).waitFor()
  assert.deepEqual(await violationsOf(page), [])
  await look(page, 'cost')
  // 1000 once more over 200 uses: five more.
  await form.getByRole('group', { name: 'Purchase' }).getByRole('spinbutton', { name: 'High' }).fill('2000')
  await form.getByRole('group', { name: 'Purchase' }).getByRole('spinbutton', { name: 'Likely' }).fill('2000')
  await form.getByRole('button', { name: 'Try it' }).click()
  await perUse.getByText('20.5', { exact: true }).waitFor()
  await form.getByRole('group', { name: 'Purchase' }).getByRole('spinbutton', { name: 'Likely' }).fill('1')
  await form.getByRole('button', { name: 'Try it' }).click()
  await page.getByRole('alert').filter({ hasText: 'a number from low to high' }).waitFor()

  await page.goto('/bench?find=vlad-path')
  await page.getByText('vlad-path').click()
  await page.getByRole('button', { name: 'Try it' }).click()
  await page.getByRole('img', { name: /figures in their order$/ }).waitFor()
  assert.deepEqual(await violationsOf(page), [])
  await look(page, 'path')
  noTroubles({ ...screen, troubles: screen.troubles.filter((each) => !/^422: POST|status of 422/.test(each)) })
})
