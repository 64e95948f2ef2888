import { citeSource } from '#units/source.ts'
import type { DecidedAnswer } from '#road/deciding/decide.ts'
import type { FindingWeight } from '#road/finding.ts'

const weights: Record<FindingWeight, string> = {
  stop: 'stop',
  caution: 'caution',
  note: 'note',
  notEvaluable: 'not evaluable',
}

/** An answer in words: the decision, each finding with its figures and source. */
export function decidedText({ topic, decision, findings, sources }: DecidedAnswer): string {
  const found = findings.map(({ weight, says, measured, limit, source }) => {
    const figures = [measured, limit === undefined ? undefined : `limit ${limit}`].filter((part) => part !== undefined)
    return `  ${weights[weight]}: ${says}${figures.length === 0 ? '' : ` (${figures.join(', ')})`} [${citeSource(source)}]\n`
  })
  const basis = found.length > 0 ? '' : sources.map((source) => `  by ${citeSource(source)}\n`).join('')
  return `${topic}: ${decision}\n${found.join('')}${basis}`
}
