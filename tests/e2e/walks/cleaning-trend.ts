import type { Browser } from 'playwright-core'
import type { RunningService } from '../../support/running-service.ts'
import { goTo, noTroubles, openScreen, tablet } from '../../support/screen.ts'

/** A newcomer opens the trend of cleaning: it has points, and washing by hand stands first, for it went over the action level. */
export async function seeCleaningTrend(browser: Browser, service: RunningService): Promise<void> {
  await using screen = await openScreen(browser, service.url, { size: tablet })
  const { page } = screen
  await goTo(page, 'Wash room')
  await page.getByText('Tests of cleaning over time', { exact: true }).click()
  const trend = page.getByRole('region', { name: 'Tests of cleaning over time' })
  await trend.getByRole('img', { name: /Protein.*Washed by hand/ }).waitFor()
  for (const analyte of ['Protein', 'Haemoglobin']) {
    // oxlint-disable-next-line no-await-in-loop
    await trend.getByRole('combobox', { name: 'Measured' }).selectOption({ label: analyte })
    // oxlint-disable-next-line no-await-in-loop
    await trend.getByRole('row', { name: /^Washed by hand/ }).waitFor()
  }
  await trend.getByRole('combobox', { name: 'Measured' }).selectOption({ label: 'ATP' })
  await trend
    .getByRole('row', { name: /^Washer/ })
    .first()
    .waitFor()
  noTroubles(screen)
}
