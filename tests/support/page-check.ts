import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { Page } from 'playwright-core'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

interface AxeAnswer {
  readonly violations: readonly {
    readonly id: string
    readonly help: string
    readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[]
  }[]
}

/** Waits until a page has all that it asked the record for. */
export async function isSettled(page: Page): Promise<void> {
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  await page.waitForLoadState('load')
  await page.getByText('Asking the record…').first().waitFor({ state: 'detached' })
}

/** What a checker of accessibility finds on the page as it stands, or within a part of it; one line each. */
export function violationsOf(page: Page, within?: string): Promise<readonly string[]> {
  // Only what is wrong is told in full; the same rules are asked.
  const how = "{ resultTypes: ['violations'] }"
  return violationsBy(page, within === undefined ? how : `${JSON.stringify(within)}, ${how}`)
}

/** The same of a page that was looked at in another light before: all that can differ then is the colours. */
export function coloursOf(page: Page): Promise<readonly string[]> {
  return violationsBy(page, "{ resultTypes: ['violations'], runOnly: ['color-contrast', 'link-in-text-block'] }")
}

async function violationsBy(page: Page, how: string): Promise<readonly string[]> {
  // It is read by the browser once for each page that is opened: that takes a quarter of a second.
  if (!(await page.evaluate<boolean>("'axe' in window"))) await page.evaluate(axe)
  const { violations } = await page.evaluate<AxeAnswer>(`axe.run(${how})`)
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(
      (node) => `${id} (${help}): ${node.html.slice(0, 200)} ${node.failureSummary?.replaceAll(/\s+/g, ' ') ?? ''}`,
    ),
  )
}

/** What is wrong with the heading of a page: it has one, and it is not empty. */
export async function headingsOf(page: Page): Promise<readonly string[]> {
  const texts = await page.getByRole('heading', { level: 1 }).allInnerTexts()
  return texts.length === 1 && texts[0]?.trim() !== '' ? [] : [`first headings: ${JSON.stringify(texts)}`]
}

/** What sticks out of a page that can be pushed sideways. */
export async function sticksOut(page: Page): Promise<readonly string[]> {
  return await page.evaluate<readonly string[]>(sticking)
}

const sticking = `{
  const { scrollWidth, clientWidth } = document.documentElement
  const right = (element) => Math.round(element.getBoundingClientRect().right)
  const out = [...document.querySelectorAll('body *')].filter((element) => right(element) > clientWidth)
  const says = out.slice(0, 5).map((element) => element.outerHTML.slice(0, 120) + ' ends at ' + right(element))
  scrollWidth > clientWidth ? [scrollWidth + ' px wide', ...says] : []
}`
