import assert from 'node:assert/strict'
import type { Browser, Locator } from 'playwright-core'
import type { UnitState } from '#service/api-types.ts'
import type { RunningService } from '../../support/running-service.ts'
import { openScreen, tablet, until, workAs } from '../../support/screen.ts'

/**
 * Somebody types nonsense: a number beyond all measure, a year before the trade, far too much text. Each is refused in
 * words that say what was wanted, what came and what to do; nothing typed is lost; and pressing twice keeps one entry.
 */
export async function typeNonsense(browser: Browser, service: RunningService): Promise<void> {
  await using screen = await openScreen(browser, service.url, { size: tablet })
  const { page } = screen
  const head = async (): Promise<number> => {
    const unit = (await service.ask('GET', '/api/unit')).body as UnitState
    assert.equal(unit.state, 'open')
    return unit.state === 'open' ? unit.head.seq : 0
  }
  await workAs(page, 'Kolade Adeyemi')
  await page.goto('/baths/opa-033')
  const form = page.getByRole('form', { name: 'Record the temperature' })
  const degrees = form.getByRole('spinbutton', { name: 'Bath, °C' })
  const before = await head()

  await degrees.fill('1000000')
  await press(form)
  // The browser says that it is at most 100.
  assert.equal(await form.locator('input:invalid').count(), 1)
  assert.equal(await degrees.inputValue(), '1000000')

  await degrees.fill('21')
  await form.getByRole('button', { name: 'At another time' }).click()
  await form.getByLabel('When it happened').fill('1900-01-01T00:00')
  await press(form)
  const refused = form.getByRole('alert')
  // Told by the clock of the unit, as it was typed.
  await refused.getByText('When it happened: wanted a time after the year 1999; came 1 Jan 1900, 00:00').waitFor()
  await refused.getByText('what you typed is still there', { exact: false }).waitFor()
  assert.equal(await degrees.inputValue(), '21')
  assert.equal(await head(), before)

  await form.getByRole('button', { name: 'Now', exact: true }).click()
  await form.getByRole('button', { name: 'Record the temperature' }).dblclick()
  await until('one entry', head, (seq) => seq === before + 1)
  await form.getByText(/^Recorded/).waitFor()
  assert.equal(await head(), before + 1)
}

async function press(form: Locator): Promise<void> {
  await form.getByRole('button', { name: 'Record the temperature' }).click()
}
