import assert from 'node:assert/strict'
import { test } from 'node:test'
import type { EntryId } from '../entry.ts'
import type { Instant } from '../instant.ts'
import type { Bodies } from '../kinds.ts'
import type { KnownOf } from '../known.ts'
import type { AnyRule } from '../rule.ts'
import { at, entered, findingsOf, type Given, knownAs, step } from '../rule-harness.ts'
import { judgeByDefinition, type RuledCriterion } from './case-definition.ts'
import { investigationSteps } from './investigation/steps.ts'
import { implantOnlyDecided } from '../operating/rules/implant-only-decided.ts'
import { chartCanTell } from './rules/chart-can-tell.ts'
import { followUpAfterOperation } from './rules/follow-up-after-operation.ts'
import { followUpSaysWhatWasHeard } from './rules/follow-up-says-what-was-heard.ts'
import { investigationClosedComplete } from './rules/investigation-closed-complete.ts'
import { hypothesisTestedWasStated } from './rules/hypothesis-tested-was-stated.ts'
import { investigationWindowSound } from './rules/investigation-window-sound.ts'
import { headStartNotHasty } from './rules/head-start-not-hasty.ts'
import { judgedByDefinition } from './rules/judged-by-definition.ts'
import { judgedWithReason } from './rules/judged-with-reason.ts'
import { judgedInWindow } from './rules/judged-in-window.ts'
import { modelOnEnoughInfections } from './rules/model-on-enough-infections.ts'
import { woundLateForBacteria } from './rules/wound-late-for-bacteria.ts'

const weights = (rule: AnyRule, given: Given, entry: ReturnType<typeof entered>) =>
  findingsOf(rule, given, entry).map((finding) => finding.weight)

/** A case operated on 25 November at 08:00, unless said otherwise. */
function operated(category: Bodies['case-booked']['category'] = 'cholecystectomy'): KnownOf<'case'> {
  return knownAs('case', 'case:1', {
    booked: step('07:00', {
      patient: 'p1',
      procedure: 'operation',
      category,
      theatre: 'T1',
      plannedAt: at('08:00'),
      surgeon: 'person:ann' as const,
      implantPlanned: false,
    }),
    recorded: step('09:30', {
      startedAt: at('08:00'),
      endedAt: at('09:00'),
      woundClass: 'II' as const,
      surgeon: 'person:ann' as const,
      implant: null,
      antibiotic: null,
    }),
  })
}

const noted = (onsetAt: string) =>
  step('12:00', {
    case: 'case:1' as const,
    onsetAt: onsetAt as Instant,
    depth: 'superficial' as const,
    signs: 'pus',
    culture: 'pending' as const,
    acidFast: 'notDone' as const,
  })

test('the case definition: one criterion of a depth is enough, the deepest stands, and what rules it out does', () => {
  // Criteria as printed in Trials 2017;18:410, Table 1 (superficial, deep); organ or space from memory.
  const rows: readonly [readonly RuledCriterion[], boolean, string | null][] = [
    [['pusFromIncision'], true, 'superficial'],
    [['openedBySurgeonWithSigns'], true, 'superficial'],
    [['openedBySurgeonWithSigns', 'cultureNegative'], false, null],
    [['pusFromIncision', 'cultureNegative'], true, 'superficial'],
    [['pusFromIncision', 'stitchAbscessOnly'], false, null],
    [['pusFromIncision', 'abscessOfDeep'], true, 'deep'],
    [['openedOrBurstWithFeverOrPain', 'cultureNegative'], false, null],
    [['abscessOfSpace', 'pusFromDeep'], true, 'organSpace'],
    [['cultureNegative'], false, null],
    [[], false, null],
  ]
  for (const [seen, meets, depth] of rows) {
    const verdict = judgeByDefinition(seen)
    assert.deepEqual([verdict.meets, verdict.depth], [meets, depth], seen.join('+'))
  }
})

test('judged-by-definition: an infection needs its criterion and its depth; a met criterion is no "none"', () => {
  const judge = (outcome: 'infection' | 'notInfection', depth: 'superficial' | 'deep', criteria: RuledCriterion[]) =>
    weights(
      judgedByDefinition,
      {},
      entered('wound-judged', { wound: 'wound:1', outcome, depth, criteria, eventAt: at('08:00') }),
    )
  assert.deepEqual(judge('infection', 'superficial', ['pusFromIncision']), [])
  assert.deepEqual(judge('infection', 'superficial', []), ['stop'])
  assert.deepEqual(judge('infection', 'superficial', ['pusFromIncision', 'pusFromDeep']), ['stop'])
  assert.deepEqual(judge('infection', 'deep', ['pusFromIncision', 'pusFromDeep']), [])
  assert.deepEqual(judge('notInfection', 'superficial', ['pusFromIncision']), ['stop'])
  assert.deepEqual(judge('notInfection', 'superficial', ['pusFromIncision', 'stitchAbscessOnly']), [])
})

test('judged-with-reason: what nobody ticked is judged no infection only with a reason, also from a command line', () => {
  const rows: readonly [RuledCriterion[], string | undefined, string[]][] = [
    [[], undefined, ['stop']],
    [[], '', ['stop']],
    [[], 'no', ['stop']],
    [[], '      ', ['stop']],
    [[], 'Looked at: a bruise only', []],
    [['pusFromIncision'], undefined, []],
    [['pusFromIncision', 'stitchAbscessOnly'], undefined, []],
  ]
  for (const [criteria, why, wanted] of rows) {
    const outcome = judgeByDefinition(criteria).meets ? 'infection' : 'notInfection'
    const body = { wound: 'wound:1', outcome, depth: 'superficial', criteria, eventAt: at('08:00') } as const
    const entry = entered('wound-judged', { ...body, ...(why === undefined ? {} : { why }) })
    assert.deepEqual(weights(judgedWithReason, {}, entry), wanted, `${criteria.join('+')} ${why}`)
  }
})

test('judged-in-window: 30 days, 90 for a deep one after a hernia; day 1 is the day of the operation', () => {
  const judge = (category: Bodies['case-booked']['category'], depth: 'superficial' | 'deep', day: string) => {
    const wound = knownAs('wound', 'wound:1', { noted: noted(`${day}T10:00:00.000Z`) })
    const eventAt = `${day}T10:00:00.000Z` as Instant
    const body = { wound: 'wound:1', outcome: 'infection', depth, criteria: [], eventAt } as const
    return weights(
      judgedInWindow,
      { known: [wound, operated(category)] },
      entered('wound-judged', { ...body, criteria: [] }),
    )
  }
  assert.deepEqual(judge('cholecystectomy', 'superficial', '2026-12-24'), [])
  assert.deepEqual(judge('cholecystectomy', 'superficial', '2026-12-25'), ['note'])
  assert.deepEqual(judge('inguinalHernia', 'superficial', '2026-12-25'), ['note'])
  assert.deepEqual(judge('inguinalHernia', 'deep', '2026-12-25'), [])
  assert.deepEqual(judge('inguinalHernia', 'deep', '2027-02-22'), [])
  assert.deepEqual(judge('inguinalHernia', 'deep', '2027-02-23'), ['note'])
  assert.deepEqual(judge('cholecystectomy', 'superficial', '2026-11-24'), ['caution'])
})

test('wound-late-for-bacteria: late without an ordinary germ, or acid-fast at any time', () => {
  // W29 and W32: day 39 with acid-fast rods is suspected; day 6 with an acute infection is not.
  const note = (day: number, culture: 'noGrowth' | 'growth' | 'pending', acidFast: 'notDone' | 'positive') => {
    const onsetAt = new Date(Date.parse(at('08:00')) + day * 86_400_000).toISOString() as Instant
    const body = {
      wound: 'wound:1',
      case: 'case:1',
      onsetAt,
      depth: 'superficial',
      signs: 'pus',
      culture,
      acidFast,
    } as const
    return weights(woundLateForBacteria, { known: [operated()] }, entered('wound-noted', body))
  }
  assert.deepEqual(note(39, 'pending', 'positive'), ['caution'])
  assert.deepEqual(note(39, 'noGrowth', 'notDone'), ['caution'])
  assert.deepEqual(note(39, 'growth', 'notDone'), [])
  assert.deepEqual(note(6, 'noGrowth', 'notDone'), [])
  assert.deepEqual(note(6, 'growth', 'positive'), ['caution'])
})

test('follow-up-says-what-was-heard and follow-up-after-operation', () => {
  const made = (rest: Partial<Bodies['follow-up-made']>): Bodies['follow-up-made'] => ({
    case: 'case:1',
    means: 'phone',
    reached: 'patient',
    wound: 'well',
    signs: [],
    alive: 'yes',
    ...rest,
  })
  const heard = (rest: Partial<Bodies['follow-up-made']>) =>
    weights(followUpSaysWhatWasHeard, {}, entered('follow-up-made', made(rest)))
  assert.deepEqual(heard({}), [])
  assert.deepEqual(heard({ reached: 'nobody', wound: 'unknown' }), [])
  assert.deepEqual(heard({ reached: 'nobody' }), ['caution'])
  assert.deepEqual(heard({ wound: 'suspicious' }), ['caution'])
  assert.deepEqual(heard({ signs: ['discharge'] }), ['caution'])
  const [said] = findingsOf(followUpSaysWhatWasHeard, {}, entered('follow-up-made', made({ wound: 'suspicious' })))
  assert.equal(said?.measured, 'not well', 'the word of the form, not that of the record')
  const after = (known: Given['known'], time: string) =>
    weights(followUpAfterOperation, { known: known ?? [] }, entered('follow-up-made', made({}), { at: at(time) }))
  assert.deepEqual(after([operated()], '12:00'), [])
  assert.deepEqual(after([operated()], '07:30'), ['caution'])
  assert.deepEqual(after([knownAs('case', 'case:1')], '12:00'), ['caution'])
})

test('chart-can-tell and model-on-enough-infections', () => {
  const set = (rest: Partial<Bodies['chart-set']>, model = false) => {
    const kept = {
      method: 'firth',
      intercept: -4,
      coefficients: {},
      operations: 1,
      infections: 1,
      until: '2026-11-01',
      longOperationMinutes: 90,
      why: 'trial',
    } as const
    const chart = knownAs('chart', 'chart:all', model ? { model: step('08:00', kept) } : {})
    const body = {
      chart: 'chart:all',
      name: 'All',
      procedures: [],
      usualRate: 0.01,
      raisedRate: 0.03,
      falseAlarmYears: 5,
      operationsPerYear: 400,
      headStart: true,
      riskAdjusted: false,
      why: 'the first',
    } as const
    return weights(chartCanTell, { known: [chart] }, entered('chart-set', { ...body, procedures: [], ...rest }))
  }
  assert.deepEqual(set({}), [])
  assert.deepEqual(set({ raisedRate: 0.01 }), ['stop'])
  // What would be walked for hours is refused before it is; what a unit may wish for is not.
  assert.deepEqual(set({ raisedRate: 0.010_000_1, operationsPerYear: 100_000, falseAlarmYears: 50 }), ['stop'])
  assert.deepEqual(set({ usualRate: 0, raisedRate: 0.5 }), ['stop'])
  assert.deepEqual(set({ usualRate: 0.02, raisedRate: 1 }), ['stop'])
  assert.deepEqual(set({ usualRate: 0.999, raisedRate: 0.9995 }), ['stop'])
  assert.deepEqual(set({ usualRate: 0.001, raisedRate: 0.002 }), [])
  assert.deepEqual(set({ usualRate: 0.05, raisedRate: 0.07 }), [])
  assert.deepEqual(set({ riskAdjusted: true }), ['note'])
  assert.deepEqual(set({ riskAdjusted: true }, true), [])
  const keep = (infections: number) => {
    const body = {
      chart: 'chart:all',
      method: 'firth',
      intercept: -4,
      coefficients: { asa3OrMore: 0.4, longOperation: 0.5 },
      operations: 900,
      infections,
      until: '2026-11-01',
      longOperationMinutes: 90,
      why: 'yearly',
    } as const
    return weights(modelOnEnoughInfections, {}, entered('risk-model-kept', body))
  }
  assert.deepEqual([keep(10), keep(9)], [[], ['caution']])
})

test('investigation-closed-complete: nothing open, and an association only with what a test of it showed', () => {
  const steps = Object.fromEntries(
    investigationSteps.map((each) => [each, step('10:00', { step: each, state: 'done' as const })]),
  )
  const stated = { ...step('10:00', { says: 'rinse water', standing: 'supported' as const }), test: null }
  const tested = (result: 'supported' | 'notSupported' | 'notDecided') => ({
    ...stated,
    test: step('10:30', { hypothesis: stated.entry, result, why: 'sample of it' }),
  })
  const close = (known: Partial<KnownOf<'investigation'>>, conclusion: 'associationFound' | 'cannotTell') => {
    const body = {
      investigation: 'investigation:1',
      conclusion,
      says: 'what was found',
      changed: 'rinse water',
    } as const
    const state = knownAs('investigation', 'investigation:1', known)
    return weights(investigationClosedComplete, { known: [state] }, entered('investigation-closed', body))
  }
  assert.deepEqual(close({ steps }, 'cannotTell'), [])
  assert.deepEqual(
    close(
      { steps: { ...steps, report: step('10:00', { step: 'report' as const, state: 'open' as const }) } },
      'cannotTell',
    ),
    ['stop'],
  )
  assert.deepEqual(close({ steps }, 'associationFound'), ['stop'])
  // Stated as supported or as to be tested: neither says what a test showed.
  assert.deepEqual(close({ steps, hypotheses: [stated] }, 'associationFound'), ['stop'])
  assert.deepEqual(close({ steps, hypotheses: [{ ...stated, standing: 'tested' }] }, 'associationFound'), ['stop'])
  assert.deepEqual(close({ steps, hypotheses: [tested('notSupported')] }, 'associationFound'), ['stop'])
  assert.deepEqual(close({ steps, hypotheses: [tested('notDecided')] }, 'associationFound'), ['caution'])
  assert.deepEqual(close({ steps, hypotheses: [tested('supported')] }, 'associationFound'), [])
  assert.deepEqual(
    close({ steps, hypotheses: [tested('notSupported'), stated, tested('supported')] }, 'associationFound'),
    [],
  )
  assert.deepEqual(close({ steps, hypotheses: [tested('notSupported')] }, 'cannotTell'), [])
  assert.deepEqual(close({}, 'associationFound'), ['stop', 'stop'])
})

test('hypothesis-tested-was-stated: the result of a test names a hypothesis of its investigation', () => {
  const stated = { ...step('10:00', { says: 'rinse water', standing: 'tested' as const }), test: null }
  const state = knownAs('investigation', 'investigation:1', { hypotheses: [stated] })
  const result = (hypothesis: EntryId, known = state) => {
    const body = { investigation: 'investigation:1', hypothesis, result: 'supported', why: 'a sample' } as const
    return weights(hypothesisTestedWasStated, { known: [known] }, entered('hypothesis-tested', body))
  }
  assert.deepEqual(result(stated.entry), [])
  // The words that were corrected since.
  const before = '01a211e0-0000-7000-8000-00000000eeee' as EntryId
  assert.deepEqual(result(before), ['caution'])
  const corrected = { ...state, corrected: { [before]: stated.entry } }
  assert.deepEqual(result(before, corrected), [])
  assert.deepEqual(result('01a211e0-0000-7000-8000-00000000ffff' as EntryId), ['caution'])
})

test('investigation-window-sound: forwards, with the wounds that it names, and as it was once it is closed', () => {
  const wound = knownAs('wound', 'wound:1', { noted: noted('2026-11-27T10:00:00.000Z') })
  const opened = step('09:00', { because: 'worry', wounds: ['wound:1'], why: 'one', lead: 'person:ann' } as const)
  const closed = step('11:00', { conclusion: 'cannotTell', says: 'nothing', changed: 'nothing' } as const)
  const set = (from: string, to: string, known: Partial<KnownOf<'investigation'>> = {}) => {
    const state = knownAs('investigation', 'investigation:1', { opened: { ...opened, wounds: ['wound:1'] }, ...known })
    const body = { investigation: 'investigation:1', from, to, why: 'these days' } as const
    const entry = entered('investigation-window-set', body)
    return weights(investigationWindowSound, { known: [state, wound, operated()] }, entry)
  }
  assert.deepEqual(set('2026-11-01', '2026-11-25'), [])
  assert.deepEqual(set('2026-11-25', '2026-11-25'), [])
  assert.deepEqual(set('2026-11-26', '2026-11-25'), ['stop'])
  assert.deepEqual(set('2026-11-01', '2026-11-24'), ['caution'])
  assert.deepEqual(set('2026-11-01', '2026-12-24'), ['note'])
  assert.deepEqual(set('2026-11-01', '2026-11-25', { closed }), ['stop'])
  const ended = knownAs('investigation', 'investigation:1', { opened: { ...opened, wounds: ['wound:1'] }, closed })
  const open = (
    days: { readonly from?: string; readonly to?: string },
    investigation: 'investigation:1' | 'investigation:2' = 'investigation:2',
  ) => {
    const { because, why, lead } = opened
    const body = {
      investigation,
      because,
      why,
      lead,
      wounds: ['wound:1' as const],
      ...days,
    }
    const known = [wound, operated(), ended]
    return weights(investigationWindowSound, { known }, entered('investigation-opened', body))
  }
  assert.deepEqual(open({}), [])
  assert.deepEqual(open({ to: '2026-11-20' }), ['caution'])
  assert.deepEqual(open({ from: '2026-11-25', to: '2026-11-20' }), ['stop'])
  // A correction of the opening of a closed one: the same days, and others.
  assert.deepEqual(open({}, 'investigation:1'), [])
  assert.deepEqual(open({ from: '2026-11-01' }, 'investigation:1'), ['stop'])
})

test('implant-only-decided: a mesh beside an opened bowel waits for somebody to decide it', () => {
  const decided = { implantDecision: step('07:30', { outcome: 'implant' as const, why: 'no other repair' }) }
  const book = (
    category: Bodies['case-booked']['category'],
    implantPlanned: boolean,
    known: Partial<KnownOf<'case'>> = {},
  ) => {
    const body = {
      case: 'case:1',
      patient: 'p1',
      procedure: 'x',
      category,
      theatre: 'T1',
      plannedAt: at('08:00'),
      surgeon: 'person:ann',
      implantPlanned,
    } as const
    return weights(implantOnlyDecided, { known: [knownAs('case', 'case:1', known)] }, entered('case-booked', body))
  }
  assert.deepEqual(book('colectomy', true), ['caution'])
  assert.deepEqual(book('colectomy', false), [])
  assert.deepEqual(book('inguinalHernia', true), [])
  assert.deepEqual(book('colectomy', true, decided), [])
})

test('head-start-not-hasty', () => {
  const found = (rest: Partial<Bodies['chart-set']>) => {
    const body = {
      chart: 'chart:all',
      name: 'All',
      procedures: [],
      usualRate: 0.02,
      raisedRate: 0.1,
      falseAlarmYears: 1,
      operationsPerYear: 120,
      headStart: true,
      riskAdjusted: false,
      why: 'the first',
    } as const
    return findingsOf(headStartNotHasty, {}, entered('chart-set', { ...body, procedures: [], ...rest }))
  }
  // The limit is 1.609, just above ln 5: from 0.805 one infection reaches it until 0.085 was taken off ten times.
  const [hasty] = found({})
  assert.equal(hasty?.weight, 'caution')
  assert.match(hasty.says, /within the first 10 operations/)
  assert.deepEqual(found({ headStart: false }), [])
  assert.deepEqual(found({ usualRate: 0.01, raisedRate: 0.03, falseAlarmYears: 5, operationsPerYear: 400 }), [])
  // A false alarm every 30 operations: ln 5 is above the limit.
  assert.match(found({ falseAlarmYears: 0.25, headStart: false })[0]?.says ?? '', /whenever it comes/)
  assert.deepEqual(found({ raisedRate: 0.02 }), [])
})
