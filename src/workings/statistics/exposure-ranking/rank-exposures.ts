import { conditionalOdds } from '../exact/conditional-odds.ts'
import { type Endless, endless } from '../exact/endless.ts'
import { exactP } from '../exact/exact-p.ts'
import { type TwoByTwo } from '../exact/exposed-cases.ts'
import { type Alike, alikeGroups } from './apart.ts'
import { type Column, columnsOf, nameOf } from './columns.ts'
import { conclude } from './conclude.ts'
import { type FamilyWise, familyWise } from './family-wise.ts'
import { organismHint } from './organism-hint.ts'
import type { ProcessFinding, RankingInput } from './ranking-input.ts'
import { type Strata, strataOf, stratifiedDistribution, tableOf, tellingStrata, tellingTables } from './strata.ts'
import { trendOf } from './trend.ts'

/** Exposures with at least this small a p of their own are looked at for others with the same pattern. */
const worthTellingApart = 0.05
const mostToldApart = 200

interface Judged {
  readonly column: Column
  readonly index: number
  readonly table: TwoByTwo
  readonly p: number
  readonly familyWiseP: number
  readonly findings: readonly ProcessFinding[]
}

/**
 * Ranks what cases met by how far infection goes with it beyond chance.
 *
 * Process findings stand beside the figures as supporting evidence. They move an exposure only among those whose figures
 * are equal, where the data have no opinion; they never make up for figures, nor do figures hide them.
 */
export function rankExposures(input: RankingInput) {
  const { permutations, seed, level, most } = input
  // In the order of their ids, so that the shuffles of a seed are the same whatever order the cases come in.
  const cases = input.cases.toSorted((a, b) => (a.id < b.id ? -1 : 1))
  const infected = Uint8Array.from(cases, (one) => Number(one.infected))
  const sick = infected.reduce((sum, one) => sum + one, 0)
  const strata = strataOf(cases)
  const all = columnsOf(cases)
  const columns = all.filter((column) => tellingStrata(column, strata) > 0)
  const figures = familyWise(columns, infected, strata, permutations, seed)
  const judged = inOrder(judgedOf(columns, infected, figures, input.findings))
  const worth = judged.filter(({ p }) => p <= worthTellingApart).slice(0, mostToldApart)
  const groups = alikeGroups(
    worth.map(({ index }) => index),
    columns,
    cases.length,
  )
  const lead = judged[0]
  const group = groups.find(({ members }) => lead !== undefined && members.includes(lead.index))
  const alike = (group?.members ?? (lead === undefined ? [] : [lead.index])).flatMap((index) => columns[index] ?? [])
  const { kind, reason } = conclude({
    infected: sick,
    notInfected: cases.length - sick,
    compared: columns.length,
    level,
    lead,
    alike,
    test: group?.test,
  })
  return {
    conclusion: kind,
    reason,
    cases: cases.length,
    infected: sick,
    strata: strata.cases.length,
    compared: columns.length,
    notCompared: all.filter((column) => !columns.includes(column)).map(nameOf),
    permutations,
    ranked: judged
      .slice(0, most)
      .map((one, rank) => describe(one, rank + 1, { infected, strata, seed, permutations, groups })),
    alike: groups.map((one) => describeGroup(one, columns)),
    trends: trendsOfTypes(all, infected, strata, seed),
    organism: organismHint(cases),
  }
}

function judgedOf(
  columns: readonly Column[],
  infected: Uint8Array,
  figures: FamilyWise,
  findings: readonly ProcessFinding[],
): Judged[] {
  return columns.map((column, index) => ({
    column,
    index,
    table: tableOf(column, infected),
    p: figures.p[index] ?? 1,
    familyWiseP: figures.familyWise[index] ?? 1,
    findings: findings.filter(({ type, id }) => type === column.type && id === column.id),
  }))
}

/** By the figures alone; among equal figures by findings; then by name. */
function inOrder(judged: readonly Judged[]): Judged[] {
  return judged.toSorted(
    (a, b) => a.familyWiseP - b.familyWiseP || a.p - b.p || b.findings.length - a.findings.length || a.index - b.index,
  )
}

interface Surroundings {
  readonly infected: Uint8Array
  readonly strata: Strata
  readonly seed: number
  readonly permutations: number
  readonly groups: readonly Alike[]
}

function describe(one: Judged, rank: number, { infected, strata, seed, permutations, groups }: Surroundings) {
  const { column, table, p, familyWiseP } = one
  const distribution = stratifiedDistribution(column, strata)
  const odds = conditionalOdds(distribution, table.casesExposed)
  const exposed = table.casesExposed + table.nonCasesExposed
  const unexposed = table.casesUnexposed + table.nonCasesUnexposed
  const group = groups.findIndex(({ members }) => members.includes(one.index))
  return {
    rank,
    name: nameOf(column),
    type: column.type,
    id: column.id,
    condition: column.flag,
    ...table,
    attackRateExposed: table.casesExposed / exposed,
    attackRateUnexposed: unexposed === 0 ? null : table.casesUnexposed / unexposed,
    oddsRatio: odds.estimate === null ? null : endless(odds.estimate),
    oddsRatioLimits: [odds.exact[0], endless(odds.exact[1])] as [number, Endless],
    strataThatTell: tellingStrata(column, strata),
    why: { working: 'cmh-exact' as const, input: { strata: tellingTables(column, infected, strata) } },
    p,
    pTwoSided: exactP(distribution, table.casesExposed).twoSided,
    familyWiseP,
    familyWiseError: Math.sqrt((familyWiseP * (1 - familyWiseP)) / permutations),
    attributableFraction: attributable(table),
    trend: trendOf(dosesOf([column], infected, strata), seed),
    findings: one.findings.map(({ says }) => says),
    alike: group < 0 ? null : group + 1,
  }
}

/** Share of all infections that would not be, were the exposed as safe as the unexposed; null where nobody is unexposed. */
function attributable(table: TwoByTwo): number | null {
  const { casesExposed, casesUnexposed, nonCasesExposed, nonCasesUnexposed } = table
  const unexposed = casesUnexposed + nonCasesUnexposed
  const infected = casesExposed + casesUnexposed
  if (unexposed === 0 || infected === 0) return null
  const expected = ((casesExposed + nonCasesExposed) * casesUnexposed) / unexposed
  return Math.max(0, (casesExposed - expected) / infected)
}

function describeGroup({ members, identical, test }: Alike, columns: readonly Column[]) {
  return { members: members.flatMap((index) => columns[index] ?? []).map(nameOf), identical, test }
}

function dosesOf(columns: readonly Column[], infected: Uint8Array, strata: Strata) {
  const largest = new Map<number, number>()
  for (const { places, amounts } of columns) {
    for (const [index, place] of places.entries()) {
      const amount = amounts[index]
      if (amount !== null && amount !== undefined) largest.set(place, Math.max(amount, largest.get(place) ?? amount))
    }
  }
  return Array.from(largest, ([place, amount]) => ({
    amount,
    infected: infected[place] === 1,
    stratum: strata.of[place] ?? 0,
  }))
}

/** For each type with amounts, whichever thing of it a case met: the age of any bath, the wait before any soak. */
function trendsOfTypes(columns: readonly Column[], infected: Uint8Array, strata: Strata, seed: number) {
  const types = Array.from(new Set(columns.map(({ type }) => type)))
  return types.flatMap((type) => {
    const trend = trendOf(
      dosesOf(
        columns.filter((column) => column.type === type && column.id !== null),
        infected,
        strata,
      ),
      seed,
    )
    return trend === null ? [] : [{ type, ...trend }]
  })
}
