import assert from 'node:assert/strict'
import type { Locator, Page } from 'playwright-core'

/** More stops than any way on a page should take. */
const mostStops = 60

/** A person who has only the keyboard. Wherever they stop to do something, they must see where they are. */
export class Keyboard {
  readonly #page: Page

  constructor(page: Page) {
    this.#page = page
  }

  /** Goes on by Tab, or back by Shift+Tab, until the wanted thing has the focus. */
  async goTo(wanted: Locator, way: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
    const reached = wanted.and(this.#page.locator(':focus'))
    await wanted.first().waitFor()
    for (let stop = 0; stop < mostStops; stop += 1) {
      /* oxlint-disable no-await-in-loop: one key after the other */
      if ((await reached.count()) > 0) return await this.#seesFocus()
      await this.#page.keyboard.press(way)
      /* oxlint-enable no-await-in-loop */
    }
    throw new Error(`${wanted.toString()} is not reached by ${mostStops} times ${way}`)
  }

  async press(wanted: Locator, key = 'Enter', way: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
    await this.goTo(wanted, way)
    await this.#page.keyboard.press(key)
  }

  async type(wanted: Locator, text: string): Promise<void> {
    await this.goTo(wanted)
    await this.#page.keyboard.type(text)
  }

  /** Chooses from a list by the first letters of the answer, as a list box takes them. */
  async choose(wanted: Locator, answer: string): Promise<void> {
    await this.type(wanted, answer)
    assert.equal(await this.#page.evaluate('document.activeElement.selectedOptions[0].label'), answer)
  }

  /** What has the focus is marked, within the window, and not under something else. */
  async #seesFocus(): Promise<void> {
    const { name, ...seen } = await this.#page.evaluate<Focused>(focused)
    assert.deepEqual(seen, { marked: true, within: true, onTop: true }, name)
  }
}

interface Focused {
  readonly name: string
  readonly marked: boolean
  readonly within: boolean
  readonly onTop: boolean
}

const focused = `{
  const element = document.activeElement
  const { outlineStyle, outlineWidth } = getComputedStyle(element)
  const { left, right, top, bottom } = element.getBoundingClientRect()
  const inside = (at, size) => Math.min(size - 1, Math.max(0, at))
  const under = document.elementFromPoint(inside((left + right) / 2, innerWidth), inside((top + bottom) / 2, innerHeight))
  const value = {
    name: element.outerHTML.slice(0, 120),
    marked: element.matches(':focus-visible') && outlineStyle !== 'none' && Number.parseFloat(outlineWidth) >= 2,
    within: bottom > 0 && top < innerHeight && right > 0 && left < innerWidth,
    onTop: under !== null && (element.contains(under) || under.contains(element)),
  }
  value
}`
