import type { Cell, Content } from './content.ts'

/** More than one text of a record ever needs on paper. A text of megabytes would make pages without end, or none. */
export const mostPrintedLetters = 3000

/** A text as it is printed: a very long one ends with how much was left out, so that it is not taken for the whole. */
export function boundedText(text: string, most = mostPrintedLetters): string {
  if (text.length <= most) return text
  const kept = text.slice(0, most).replace(/[\uD800-\uDBFF]$/, '')
  return `${kept} … [${text.length - kept.length} of ${text.length} characters are left out here: read them on the screen]`
}

/** The same content with every text bounded; pictures of ours are as they are. */
export function bounded(content: Content): Content {
  if (typeof content === 'string' || 'text' in content) return boundedCell(content)
  if ('ul' in content) return { ...content, ul: content.ul.map((text) => boundedText(text)) }
  if ('ol' in content) return { ...content, ol: content.ol.map((text) => boundedText(text)) }
  if ('stack' in content) return { ...content, stack: content.stack.map(bounded) }
  if ('columns' in content) return { ...content, columns: content.columns.map(bounded) }
  if ('table' in content)
    return { ...content, table: { ...content.table, body: content.table.body.map((row) => row.map(boundedCell)) } }
  return content
}

function boundedCell(cell: Cell): Cell {
  return typeof cell === 'string' ? boundedText(cell) : { ...cell, text: boundedText(cell.text) }
}
