import type { Locator, Page } from 'playwright-core'

/**
 * What an action costs, in seconds: the operators of the keystroke-level model of Card, Moran and Newell (1980): a key
 * of a typist who is not skilled, pointing, and making up one's mind, once for each field and each button.
 */
export const secondsPer = { key: 0.3, click: 1.1, decision: 1.35 } as const

/** Works a page as one person would, and counts it. */
export class Hands {
  readonly counted = { fields: 0, clicks: 0, keys: 0, decisions: 0 }
  readonly parts: [string, number][] = []
  readonly page: Page

  constructor(page: Page) {
    this.page = page
  }

  get seconds(): number {
    const { keys, clicks, decisions } = this.counted
    return keys * secondsPer.key + clicks * secondsPer.click + decisions * secondsPer.decision
  }

  async part(name: string, work: () => Promise<void>): Promise<void> {
    const before = this.seconds
    await work()
    this.parts.push([name, this.seconds - before])
  }

  async type(field: Locator, text: string): Promise<void> {
    this.field(text.length)
    await field.fill(text)
  }

  async select(field: Locator, option: string | { label: string }): Promise<void> {
    this.field(0)
    this.counted.clicks += 1
    await field.selectOption(option)
  }

  async tick(field: Locator): Promise<void> {
    this.field(0)
    await field.check()
  }

  async press(target: Locator): Promise<void> {
    this.counted.clicks += 1
    this.counted.decisions += 1
    await target.click()
  }

  /** Choosing a file in the dialog of the system: two clicks more. */
  async file(field: Locator, file: { name: string; mimeType: string; buffer: Buffer }): Promise<void> {
    this.field(0)
    this.counted.clicks += 2
    await field.setInputFiles(file)
  }

  private field(keys: number): void {
    this.counted.fields += 1
    this.counted.clicks += 1
    this.counted.decisions += 1
    this.counted.keys += keys
  }
}
