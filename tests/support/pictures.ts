import assert from 'node:assert/strict'
import type { Page } from 'playwright-core'
import { sticksOut } from './page-check.ts'

/** Takes a page's picture in both lights and at three widths, where a folder was named; nothing can be pushed sideways. */
export function picturesIn(folder: string | undefined): (page: Page, name: string) => Promise<void> {
  return async (page, name) => {
    if (folder === undefined) return
    const before = page.viewportSize()
    for (const colorScheme of ['light', 'dark'] as const)
      for (const width of [390, 820, 1440]) {
        /* oxlint-disable no-await-in-loop: one picture after the other */
        await page.emulateMedia({ colorScheme })
        await page.setViewportSize({ width, height: 1000 })
        await page.screenshot({ path: `${folder}/${name}-${width}-${colorScheme}.png` })
        assert.deepEqual(await sticksOut(page), [], `${name} at ${width} px`)
        /* oxlint-enable no-await-in-loop */
      }
    await page.emulateMedia({ colorScheme: null })
    if (before !== null) await page.setViewportSize(before)
  }
}
