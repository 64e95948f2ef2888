import { type ReactNode, useLayoutEffect, useRef } from 'react'

/**
 * A table that turns into stacked rows on a narrow screen, each cell with the heading of its column beside it.
 * It stays a table for who reads it by ear: the roles are written out, since a cell that is drawn as a block loses its own.
 */
export function Table({ children }: { readonly children: ReactNode }) {
  const table = useRef<HTMLTableElement>(null)
  useLayoutEffect(() => {
    const { current } = table
    if (current === null) return
    label(current)
    const watcher = new MutationObserver(() => label(current))
    watcher.observe(current, { childList: true, subtree: true, characterData: true })
    return () => watcher.disconnect()
  }, [])
  return (
    <div className="scroll">
      <table className="stacked" ref={table}>
        {children}
      </table>
    </div>
  )
}

const groups = { THEAD: 'rowgroup', TBODY: 'rowgroup', TFOOT: 'rowgroup' } as const

/** Writes the heading of its column on each cell, and the role of each part. */
function label(table: HTMLTableElement): void {
  const headings = [...(table.tHead?.rows[0]?.cells ?? [])].map((cell) => cell.textContent.trim())
  set(table, 'role', 'table')
  for (const part of table.children) {
    if (part.tagName in groups) set(part, 'role', 'rowgroup')
  }
  for (const row of table.rows) {
    set(row, 'role', 'row')
    const inHead = row.parentElement === table.tHead
    for (const cell of row.cells) {
      set(cell, 'role', inHead ? 'columnheader' : cell.tagName === 'TH' ? 'rowheader' : 'cell')
      if (!inHead && cell.colSpan === 1) set(cell, 'data-label', headings[cell.cellIndex] ?? '')
    }
  }
}

/** Only what differs is written: each write would call for another look. */
function set(element: Element, name: string, value: string): void {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value)
}
