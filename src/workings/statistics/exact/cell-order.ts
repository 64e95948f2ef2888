import { z } from 'zod'
import type { TwoByTwo } from './exposed-cases.ts'

type CellName = keyof TwoByTwo
type CellOrder = readonly [CellName, CellName, CellName, CellName]

const usual: CellOrder = ['casesExposed', 'nonCasesExposed', 'casesUnexposed', 'nonCasesUnexposed']

/** Which cell a word such as "unexp&case" or "control exposed" means. */
function cellNamed(word: string): CellName | undefined {
  const text = word.toLowerCase()
  const unexposed = /unexp|not.?exp|non.?exp/.test(text)
  const nonCase = /non.?case|not.?case|control|not.?infected|uninfected/.test(text)
  if (!/exp/.test(text) || !/case|control|infected/.test(text)) return undefined
  if (nonCase) return unexposed ? 'nonCasesUnexposed' : 'nonCasesExposed'
  return unexposed ? 'casesUnexposed' : 'casesExposed'
}

function orderIn(text: string): CellOrder | undefined {
  const [first, second, third, fourth, ...more] = text
    .replaceAll(/[[\]()]/g, '')
    .split(/[,;]/)
    .map(cellNamed)
  if (!first || !second || !third || !fourth || more.length > 0) return undefined
  return new Set([first, second, third, fourth]).size === 4 ? [first, second, third, fourth] : undefined
}

/** The order of the four cells of each stratum, in words. */
export const cellOrderField = z
  .string()
  .max(200)
  .refine((text) => orderIn(text) !== undefined, {
    message: 'the four cells by name, such as "exp&case, exp&noncase, unexp&case, unexp&noncase"',
  })
  .optional()
  .describe('what the four numbers are; without it exposed case, exposed non-case, unexposed case, unexposed non-case')

/** Names the four numbers. */
export function tableFrom(cells: readonly [number, number, number, number], order: string | undefined): TwoByTwo {
  const table = { casesExposed: 0, casesUnexposed: 0, nonCasesExposed: 0, nonCasesUnexposed: 0 }
  const names = order === undefined ? usual : (orderIn(order) ?? usual)
  for (const [index, name] of names.entries()) table[name] = cells[index] ?? 0
  return table
}
