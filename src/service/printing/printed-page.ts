import type { Content } from './content.ts'

/** A page as plain data, so that it can be set in a thread of its own. */
export interface PrintedPage {
  readonly title: string
  /** Whose page it is: the unit, with what says that it is a demonstration. */
  readonly unit: string
  /** What the page is about, at its foot: `Load l17`. */
  readonly about: string
  /** When it was printed, by the clock of the unit, and by whom. */
  readonly printedAt: string
  readonly printedBy: string
  readonly content: readonly Content[]
}

export const printedCaution =
  'An aid to trained staff. It defers to the maker’s instructions, to local rules and to licensed practice. It is not a certified medical device.'
