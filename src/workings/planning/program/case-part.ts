import { type ConstraintDraft, type Literal, not, sumOf, type Task } from '#workings/constraints/constraint-model.ts'
import type { CoarseModel } from './coarse-model.ts'

/** Variables of the cases: starts, and where each is. */
export interface CasePart {
  readonly starts: readonly number[]
  /** For each case its theatres, each with the literal that says so; none when there is but one. */
  readonly housed: readonly (readonly { readonly theatre: number; readonly when: Literal | undefined }[])[]
  readonly earliest: readonly number[]
  readonly latest: readonly number[]
  /** Literal: the second case starts no later than the first. */
  readonly noLater: (one: number, other: number) => Literal
  /** Those literals that were asked for, each with its two cases. */
  readonly orders: ReadonlyMap<string, Literal>
}

/** Cases: hours, turnovers, surgeons, and of cases that are alike the first goes first. */
export function addCases(draft: ConstraintDraft, day: CoarseModel, latestEnd: readonly number[]): CasePart {
  const { model, theatres } = day
  const open = (theatre: number): number => theatres[theatre]?.open ?? 0
  const close = (theatre: number): number => Math.min(theatres[theatre]?.hardClose ?? 0, latestEnd[theatre] ?? 0)
  const earliest = model.cases.map((one) => Math.max(one.earliest, Math.min(...one.theatres.map(open))))
  const latest = model.cases.map((one) => Math.min(one.latest, Math.max(...one.theatres.map(close)) - one.dur))
  const starts = model.cases.map((_, one) =>
    draft.whole(earliest[one] ?? 0, Math.max(earliest[one] ?? 0, latest[one] ?? 0)),
  )
  const housed = model.cases.map((one, index) => {
    const start = starts[index] ?? 0
    // A variable cannot have an empty range: a case that cannot be in time is refused by a limit instead.
    draft.atMost(start, latest[index] ?? 0)
    if (one.theatres.length === 1) return one.theatres.map((theatre) => ({ theatre, when: undefined }))
    const choice = one.theatres.map((theatre) => ({ theatre, when: draft.literal() }))
    draft.exactlyOne(choice.map(({ when }) => when))
    for (const { theatre, when } of choice) {
      draft.atLeast(start, open(theatre), [when])
      draft.atMost(start, close(theatre) - one.dur, [when])
    }
    return choice
  })
  for (const theatre of theatres.keys()) draft.alone(tasksIn(day, { starts, housed }, theatre))
  addSurgeons(draft, day, starts)
  addLikes(draft, day, starts)
  return { starts, housed, earliest, latest, ...orderLiterals(draft, day, { starts, housed }) }
}

function tasksIn(
  { model }: CoarseModel,
  { starts, housed }: Pick<CasePart, 'starts' | 'housed'>,
  theatre: number,
): Task[] {
  return model.cases.flatMap(({ dur, turnover }, one) =>
    (housed[one] ?? [])
      .filter((each) => each.theatre === theatre)
      .map(({ when }) => ({ start: starts[one] ?? 0, size: dur + turnover, when })),
  )
}

function addSurgeons(draft: ConstraintDraft, { model, surgeonGap }: CoarseModel, starts: readonly number[]): void {
  for (let surgeon = 0; surgeon < model.surgeons; surgeon += 1) {
    const own = model.cases.flatMap((one, index) => (one.surgeon === surgeon ? [{ one, index }] : []))
    // Where all of one surgeon's cases are in one theatre, its turnovers keep them apart already, unless the gap is longer.
    draft.alone(own.map(({ one, index }) => ({ start: starts[index] ?? 0, size: one.dur + surgeonGap })))
  }
}

/** Of cases that are alike in everything, the first goes first. */
function addLikes(draft: ConstraintDraft, day: CoarseModel, starts: readonly number[]): void {
  for (const group of alikeCases(day))
    for (const [nth, one] of group.slice(1).entries()) draft.apart(starts[group[nth] ?? 0] ?? 0, starts[one] ?? 0, 0)
}

/** Places of cases that are alike in everything, of each kind of which there are several. */
export function alikeCases({ model }: CoarseModel): readonly (readonly number[])[] {
  const groups = new Map<string, number[]>()
  for (const [index, one] of model.cases.entries()) {
    const needs = one.needs.toSorted((a, b) => a[0] - b[0])
    const key = JSON.stringify({ ...one, needs, theatres: one.theatres.toSorted((a, b) => a - b) })
    groups.set(key, [...(groups.get(key) ?? []), index])
  }
  return [...groups.values()].filter((group) => group.length > 1)
}

/** Makes literals for the order of two starts when they are first asked for. */
function orderLiterals(
  draft: ConstraintDraft,
  { model }: CoarseModel,
  { starts, housed }: Pick<CasePart, 'starts' | 'housed'>,
): Pick<CasePart, 'noLater' | 'orders'> {
  const made = new Map<string, Literal>()
  const fixed = (one: number): number => (housed[one]?.length === 1 ? (housed[one]?.[0]?.theatre ?? -1) : -1 - one)
  const noLater: CasePart['noLater'] = (one, other) => {
    const key = `${one} ${other}`
    const known = made.get(key)
    if (known !== undefined) return known
    const literal = draft.literal()
    made.set(key, literal)
    const [a, b] = [model.cases[one], model.cases[other]]
    if (a === undefined || b === undefined) return literal
    if (fixed(one) === fixed(other)) {
      made.set(`${other} ${one}`, not(literal))
      draft.apart(starts[other] ?? 0, starts[one] ?? 0, b.dur + b.turnover, [literal])
      draft.apart(starts[one] ?? 0, starts[other] ?? 0, a.dur + a.turnover, [not(literal)])
      return literal
    }
    draft.apart(starts[one] ?? 0, starts[other] ?? 0, 1, [not(literal)])
    const back = made.get(`${other} ${one}`)
    if (back !== undefined) draft.anyOf([literal, back])
    return literal
  }
  return { noLater, orders: made }
}

/** Holds when a case of a lower rank comes after one of a higher rank in one theatre. */
export interface Inversion {
  readonly low: number
  readonly high: number
  readonly literal: Literal
}

/** What is counted: literals of inversions, minutes past the close and minutes occupied of each theatre. */
export interface CountedPart {
  readonly inversions: readonly Inversion[]
  readonly overtime: readonly number[]
  readonly occupied: readonly number[]
}

export function addCounts(
  draft: ConstraintDraft,
  day: CoarseModel,
  cases: CasePart,
  mostInversions: number,
): CountedPart {
  const { model, theatres, step } = day
  const inversions = addOrder(draft, day, cases, mostInversions)
  const overtime = theatres.map(({ close, hardClose }) => draft.whole(0, Math.max(0, hardClose * step - close)))
  const occupied = theatres.map(({ open, hardClose }) => draft.whole(0, Math.max(0, (hardClose - open) * step)))
  for (const [one, facts] of model.cases.entries())
    for (const { theatre, when } of cases.housed[one] ?? []) {
      const start = cases.starts[one] ?? 0
      const end = facts.dur * step
      const literals = when === undefined ? [] : [when]
      const { open = 0, close = 0 } = theatres[theatre] ?? {}
      draft.linear(
        [
          [overtime[theatre] ?? 0, 1],
          [start, -step],
        ],
        end - close,
        Number.MAX_SAFE_INTEGER,
        literals,
      )
      draft.linear(
        [
          [occupied[theatre] ?? 0, 1],
          [start, -step],
        ],
        end - open * step,
        Number.MAX_SAFE_INTEGER,
        literals,
      )
    }
  addWork(draft, day, cases, { overtime, occupied })
  return { inversions, overtime, occupied }
}

/** A theatre is occupied at least as long as its cases and the turnovers between them: said once more, as a sum. */
function addWork(
  draft: ConstraintDraft,
  { model, theatres, step }: CoarseModel,
  { housed }: CasePart,
  { overtime, occupied }: Pick<CountedPart, 'overtime' | 'occupied'>,
): void {
  for (const [theatre, { open, close }] of theatres.entries()) {
    const own = model.cases.flatMap((facts, one) =>
      (housed[one] ?? []).filter((each) => each.theatre === theatre).map(({ when }) => ({ facts, when })),
    )
    const longest = Math.max(0, ...own.map(({ facts }) => facts.turnover)) * step
    const fixed = own.filter(({ when }) => when === undefined)
    const sum = fixed.reduce((all, { facts }) => all + (facts.dur + facts.turnover) * step, 0)
    const chosen = sumOf(
      own.flatMap(({ facts, when }) =>
        when === undefined ? [] : [[when, -(facts.dur + facts.turnover) * step] as const],
      ),
    )
    const least = sum - longest - chosen.constant
    draft.linear([[occupied[theatre] ?? 0, 1], ...chosen.terms], least, Number.MAX_SAFE_INTEGER)
    draft.linear([[overtime[theatre] ?? 0, 1], ...chosen.terms], least - (close - open * step), Number.MAX_SAFE_INTEGER)
  }
}

/** Cases of a lower rank before those of a higher one in their theatre, or a literal that says that it is not so. */
function addOrder(
  draft: ConstraintDraft,
  { model }: CoarseModel,
  { starts, housed }: CasePart,
  most: number,
): readonly Inversion[] {
  const inversions: Inversion[] = []
  for (const [first, low] of model.cases.entries())
    for (const [second, high] of model.cases.entries()) {
      if (low.rank >= high.rank) continue
      const shared = (housed[first] ?? []).flatMap(({ theatre, when }) =>
        (housed[second] ?? []).filter((each) => each.theatre === theatre).map((each) => [when, each.when]),
      )
      if (shared.length === 0) continue
      const wrong = most > 0 ? draft.literal() : undefined
      if (wrong !== undefined) inversions.push({ low: first, high: second, literal: wrong })
      const allowed = wrong === undefined ? [] : [not(wrong)]
      for (const both of shared)
        draft.apart(starts[first] ?? 0, starts[second] ?? 0, low.dur + low.turnover, [
          ...allowed,
          ...both.flatMap((each) => (each === undefined ? [] : [each])),
        ])
    }
  if (most > 0)
    draft.linear(
      inversions.map(({ literal }) => [literal, 1] as const),
      0,
      most,
    )
  return inversions
}
