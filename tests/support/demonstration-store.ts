import assert from 'node:assert/strict'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser } from 'playwright-core'
import { builtScreens } from '#service/open-service.ts'
import { demonstration } from '#service/unit/demonstration.ts'
import { type RunningService, runService } from './running-service.ts'
import { noTroubles, openScreen } from './screen.ts'

/** A written demonstration unit, from which each test takes a copy of its own: writing it takes half a minute. */
export interface DemonstrationStore extends Disposable {
  /** What the bar of the first start showed while it was written. */
  readonly progress: readonly number[]
  /** A service on a copy of the store. */
  readonly open: () => Promise<RunningService>
}

const mostMilliseconds = 600_000

/** Chooses the demonstration on the first-start screen and waits, as a person does, until the round appears. */
export async function setUpDemonstration(browser: Browser): Promise<DemonstrationStore> {
  const folder = mkdtempSync(join(tmpdir(), 'nilgrowth-demonstration-'))
  const progress = new Set<number>()
  {
    await using service = await runService({ folder, demo: demonstration, screens: builtScreens })
    await using screen = await openScreen(browser, service.url)
    const { page } = screen
    await page.getByRole('button', { name: 'Explore the demonstration unit' }).click()
    const bar = page.getByRole('progressbar', { name: 'The demonstration unit is being made' })
    const round = page.getByRole('heading', { level: 1, name: 'Round' })
    const end = Date.now() + mostMilliseconds
    // Looked at again and again until the bar has gone.
    /* oxlint-disable no-await-in-loop */
    while (!(await round.isVisible())) {
      assert.ok(Date.now() < end, 'the demonstration was not written in time')
      const value = await bar.getAttribute('value', { timeout: 2000 }).catch(() => null)
      if (value !== null) progress.add(Number(value))
      await round.waitFor({ timeout: 500 }).catch(() => null)
    }
    /* oxlint-enable no-await-in-loop */
    noTroubles(screen)
    assert.deepEqual(service.log, [])
  }
  const copies = new Set<string>()
  return {
    progress: [...progress],
    async open() {
      const copy = mkdtempSync(join(tmpdir(), 'nilgrowth-demonstration-'))
      copies.add(copy)
      cpSync(folder, copy, { recursive: true })
      return await runService({ folder: copy, demo: demonstration, screens: builtScreens })
    },
    [Symbol.dispose]() {
      for (const each of [folder, ...copies]) rmSync(each, { recursive: true, force: true })
    },
  }
}
