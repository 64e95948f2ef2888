import assert from 'node:assert/strict'
import { test } from 'node:test'
import { builtScreens } from '#service/open-service.ts'
import { openBrowser } from '../support/browser.ts'
import { runService } from '../support/running-service.ts'
import { goTo, noTroubles, openScreen } from '../support/screen.ts'
import { Hands, secondsPer } from './walks/hands.ts'
import { setUpEmptyUnit } from './walks/set-up-empty-unit.ts'

/** One person sets up an empty unit in less than this, by the stated rule. */
const mostMinutes = 30

test('a unit is set up from nothing, to its first wash, in under half an hour of one person', async (t) => {
  await using service = await runService({ screens: builtScreens })
  const browser = await openBrowser()
  try {
    const screen = await openScreen(browser, service.url)
    const hands = new Hands(screen.page)
    await setUpEmptyUnit(hands)
    await goTo(screen.page, 'Unit')
    assert.equal(await screen.page.getByRole('heading', { name: 'Before the first set goes round' }).count(), 0)
    for (const [kind, least] of [
      ['person', 3],
      ['device', 7],
      ['set', 1],
      ['machine', 2],
      ['outlet', 1],
      ['bath', 1],
    ] as const) {
      // oxlint-disable-next-line no-await-in-loop
      const { body } = await service.ask('GET', `/api/known?kind=${kind}`)
      assert.equal((body as { rows: unknown[] }).rows.length, least, kind)
    }
    noTroubles(screen)
    const { fields, clicks, keys } = hands.counted
    for (const [part, seconds] of hands.parts) t.diagnostic(`${part}: ${Math.round(seconds)} s`)
    t.diagnostic(
      `${fields} fields, ${clicks} clicks, ${keys} keys: ${(hands.seconds / 60).toFixed(1)} min at ${secondsPer.key} s a key, ${secondsPer.click} s a click, ${secondsPer.decision} s a decision`,
    )
    assert.ok(hands.seconds < mostMinutes * 60, `${hands.seconds} s`)
    // Fewer would mean that something was not asked for.
    assert.ok(fields > 40 && keys > 100, JSON.stringify(hands.counted))
  } finally {
    await browser.close()
  }
})
