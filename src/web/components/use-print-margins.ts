import { useEffect } from 'react'

/**
 * Puts a line at the head and one at the foot of every printed sheet, with the number of the sheet: a sheet that is read
 * alone says whose it is and what it is worth.
 */
export function usePrintMargins(head: string, foot: string): void {
  useEffect(() => {
    const sheet = new CSSStyleSheet()
    sheet.replaceSync(`@page {
  margin: 18mm 15mm 22mm;
  @top-left { content: ${quoted(head)}; font-size: 8pt; width: 100%; }
  @bottom-left { content: ${quoted(foot)}; font-size: 7pt; width: 85%; text-align: left; }
  @bottom-right { content: counter(page) " / " counter(pages); font-size: 8pt; }
}`)
    document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet]
    return () => {
      document.adoptedStyleSheets = document.adoptedStyleSheets.filter((each) => each !== sheet)
    }
  }, [head, foot])
}

/** A text as a string of CSS. */
function quoted(text: string): string {
  return `"${text.replaceAll(/["\\\n]/g, (each) => `\\${each.charCodeAt(0).toString(16)} `)}"`
}
