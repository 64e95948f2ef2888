import type { CaseExposure } from '#road/wounds/investigation/exposures-of-case.ts'
import type { CaseLine } from '#road/wounds/surveillance/line.ts'
import { stratumOf } from '#road/wounds/surveillance/stratum.ts'
import type { ExposedLine } from './read-exposures.ts'

/** A case as the ranking takes it. */
export function comparedCase({ line, exposures }: ExposedLine) {
  const organism = organismOf(line)
  return {
    id: line.case,
    date: line.day,
    procedure: line.category ?? line.procedure,
    stratum: stratumOf(line),
    infected: line.infection !== null,
    ...(line.infection === null ? {} : { onset: line.infection.eventAt.slice(0, 10), depth: line.infection.depth }),
    ...(organism === null ? {} : { organism }),
    exposures: exposures.map(plain),
  }
}

function organismOf({ infection }: CaseLine): string | null {
  if (infection === null) return null
  if (infection.organism !== null) return infection.organism
  return infection.acidFast === 'positive' ? 'acid-fast rods' : null
}

function plain({ type, id, at, amount, flags }: CaseExposure) {
  return { type, id, at, flags: [...flags], ...(amount === undefined ? {} : { amount }) }
}
