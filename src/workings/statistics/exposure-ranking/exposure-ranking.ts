import { z } from 'zod'
import { defineWorking } from '#workings/working.ts'
import { EndlessField } from '../exact/endless.ts'
import { conditionalOddsSource, monteCarloSource, westfallYoungSource } from '../sources-of-attribution.ts'
import { tellingTests } from './apart.ts'
import { rankExposures } from './rank-exposures.ts'
import { RankingInput } from './ranking-input.ts'

const trendFields = {
  cases: z.number().int().describe('cases with an amount'),
  meanInfected: z.number().describe('mean amount of the infected'),
  meanNotInfected: z.number().describe('mean amount of the others'),
  p: z.number().describe('permutation p that the infected met more, within strata'),
}

const RankedField = z.strictObject({
  rank: z.number().int(),
  name: z.string().describe('the exposure in words'),
  type: z.string().describe('its kind'),
  id: z.string().nullable().describe('which one; null for a condition'),
  condition: z.string().nullable().describe('the condition; null for the thing itself'),
  casesExposed: z.number().int().describe('infected and exposed'),
  casesUnexposed: z.number().int().describe('infected, not exposed'),
  nonCasesExposed: z.number().int().describe('not infected, exposed'),
  nonCasesUnexposed: z.number().int().describe('not infected, not exposed'),
  attackRateExposed: z.number().describe('share infected of the exposed'),
  attackRateUnexposed: z.number().nullable().describe('share infected of the unexposed'),
  oddsRatio: EndlessField.nullable().describe('conditional odds ratio common to the strata'),
  oddsRatioLimits: z.tuple([z.number(), EndlessField]).describe('its exact 95 % limits'),
  strataThatTell: z.number().int().describe('strata in which infection and exposure both vary'),
  why: z
    .strictObject({
      working: z.literal('cmh-exact'),
      input: z.strictObject({ strata: z.array(z.tuple([z.int(), z.int(), z.int(), z.int()])) }),
    })
    .describe('the working that gives odds ratio, limits and both p again, with the tables of the strata that tell'),
  p: z.number().describe('exact p within strata that exposure goes with infection'),
  pTwoSided: z.number().describe('exact p within strata, two-sided by likelihood'),
  familyWiseP: z.number().describe('p over all exposures looked at, step down'),
  familyWiseError: z.number().describe('standard error of it from the number of shuffles'),
  attributableFraction: z
    .number()
    .nullable()
    .describe('share of all infections that would not be, were the exposed as safe as the unexposed'),
  trend: z.strictObject(trendFields).nullable().describe('whether more of it goes with more infection'),
  findings: z.array(z.string()).describe('process findings that stand against it: they support, they do not count'),
  alike: z.number().int().nullable().describe('group of exposures that the cases cannot tell apart, 1 for the first'),
})

const TestField = z.strictObject({
  kind: z.enum(tellingTests),
  says: z.string().describe('the single test that would tell them apart'),
})

const example = {
  cases: [
    ['2026-03-02', true, 'T1'],
    ['2026-03-03', true, 'T1'],
    ['2026-03-04', true, 'T1'],
    ['2026-03-05', true, 'T1'],
    ['2026-03-06', false, 'T2'],
    ['2026-03-09', false, 'T2'],
    ['2026-03-10', false, 'T2'],
    ['2026-03-11', false, 'T2'],
    ['2026-03-12', false, 'T2'],
    ['2026-03-13', false, 'T2'],
  ].map(([date, infected, id], index) => ({
    id: `C${index + 1}`,
    date,
    infected,
    exposures: [
      { type: 'outlet', id },
      { type: 'theatre', id: String((index % 2) + 1) },
    ],
  })),
  findings: [{ type: 'outlet', id: 'T1', says: 'Filter not changed for 40 days' }],
  permutations: 999,
}

export const exposureRankingWorking = defineWorking({
  id: 'exposure-ranking',
  title: 'Which exposure infection goes with',
  group: 'statistics',
  method:
    'Every thing that cases met, and every condition that things of a type were in, is compared between infected and not infected. The exact one-sided p and the ' +
    'conditional odds ratio are those within strata (month and procedure unless a stratum is given). The family-wise p is Westfall and Young step-down min-P over shuffles of the ' +
    'infections within the strata. Ranked by family-wise p, then p; process findings only order exposures whose figures are equal. Exposures met by ' +
    'the same cases (nine in ten of those that met either) are grouped, with the one test that would tell them apart. The conclusion is an association or "cannotTell", never a proof.',
  validity:
    'A complete line list: all cases of the time, infected or not, with what each met. An exposure that is constant within every stratum is not compared. ' +
    'It finds what goes with infection, not what causes it.',
  sources: [
    westfallYoungSource,
    conditionalOddsSource,
    monteCarloSource,
    { title: 'Findings support and do not count; nine in ten is one pattern; 14 days is late', status: 'proposal' },
    { title: 'Acid-fast organisms of late wounds live in water', status: 'commonPractice' },
  ],
  input: RankingInput,
  output: z.strictObject({
    conclusion: z.enum(['association', 'cannotTell']),
    reason: z.string().describe('the conclusion in words'),
    cases: z.number().int(),
    infected: z.number().int(),
    strata: z.number().int().describe('strata within which infections were shuffled'),
    compared: z.number().int().describe('exposures that could be compared'),
    notCompared: z
      .array(z.string())
      .describe('exposures that do not vary within any stratum that has infected and others'),
    permutations: z.number().int(),
    ranked: z.array(RankedField).describe('exposures, best first'),
    alike: z
      .array(z.strictObject({ members: z.array(z.string()), identical: z.boolean(), test: TestField }))
      .describe('groups that the cases cannot tell apart'),
    trends: z
      .array(z.strictObject({ type: z.string(), ...trendFields }))
      .describe('amounts over all things of a type; their p are not adjusted for one another'),
    organism: z
      .strictObject({
        kind: z.enum(['lateAcidFast', 'acidFast', 'none']),
        medianDaysToOnset: z.number().nullable(),
        types: z.array(z.string()).describe('kinds of exposure of the list that it points at'),
        says: z.string(),
      })
      .describe('what the organism suggests'),
  }),
  example: {
    input: example,
    output: {
      conclusion: 'association',
      reason:
        'Infection goes with outlet T1 beyond chance (family-wise p 0.005, 4 exposures looked at). An association is not a proof: sample it or change it, and watch.',
      cases: 10,
      infected: 4,
      strata: 1,
      compared: 4,
      notCompared: [],
      permutations: 999,
      ranked: [
        {
          rank: 1,
          name: 'outlet T1',
          type: 'outlet',
          id: 'T1',
          condition: null,
          casesExposed: 4,
          casesUnexposed: 0,
          nonCasesExposed: 0,
          nonCasesUnexposed: 6,
          attackRateExposed: 1,
          attackRateUnexposed: 0,
          oddsRatio: 'Infinity',
          oddsRatioLimits: [2.160811880544815, 'Infinity'],
          strataThatTell: 1,
          why: { working: 'cmh-exact', input: { strata: [[4, 0, 0, 6]] } },
          p: 0.004761904761904759,
          pTwoSided: 0.004761904761904759,
          familyWiseP: 0.005,
          familyWiseError: 0.0022315868748448895,
          attributableFraction: 1,
          trend: null,
          findings: ['Filter not changed for 40 days'],
          alike: null,
        },
        {
          rank: 2,
          name: 'theatre 1',
          type: 'theatre',
          id: '1',
          condition: null,
          casesExposed: 2,
          casesUnexposed: 2,
          nonCasesExposed: 3,
          nonCasesUnexposed: 3,
          attackRateExposed: 0.4,
          attackRateUnexposed: 0.4,
          oddsRatio: 1,
          oddsRatioLimits: [0.04226057602667093, 23.662715798499605],
          strataThatTell: 1,
          why: { working: 'cmh-exact', input: { strata: [[2, 3, 2, 3]] } },
          p: 0.7380952380952381,
          pTwoSided: 1,
          familyWiseP: 1,
          familyWiseError: 0,
          attributableFraction: 0,
          trend: null,
          findings: [],
          alike: null,
        },
        {
          rank: 3,
          name: 'theatre 2',
          type: 'theatre',
          id: '2',
          condition: null,
          casesExposed: 2,
          casesUnexposed: 2,
          nonCasesExposed: 3,
          nonCasesUnexposed: 3,
          attackRateExposed: 0.4,
          attackRateUnexposed: 0.4,
          oddsRatio: 1,
          oddsRatioLimits: [0.04226057602667093, 23.662715798499605],
          strataThatTell: 1,
          why: { working: 'cmh-exact', input: { strata: [[2, 3, 2, 3]] } },
          p: 0.7380952380952381,
          pTwoSided: 1,
          familyWiseP: 1,
          familyWiseError: 0,
          attributableFraction: 0,
          trend: null,
          findings: [],
          alike: null,
        },
        {
          rank: 4,
          name: 'outlet T2',
          type: 'outlet',
          id: 'T2',
          condition: null,
          casesExposed: 0,
          casesUnexposed: 4,
          nonCasesExposed: 6,
          nonCasesUnexposed: 0,
          attackRateExposed: 0,
          attackRateUnexposed: 1,
          oddsRatio: 0,
          oddsRatioLimits: [0, 0.4627890141680756],
          strataThatTell: 1,
          why: { working: 'cmh-exact', input: { strata: [[0, 6, 4, 0]] } },
          p: 1,
          pTwoSided: 0.004761904761904763,
          familyWiseP: 1,
          familyWiseError: 0,
          attributableFraction: 0,
          trend: null,
          findings: [],
          alike: null,
        },
      ],
      alike: [],
      trends: [],
      organism: {
        kind: 'none',
        medianDaysToOnset: null,
        types: [],
        says: 'The organisms recorded point at no kind of exposure.',
      },
    },
  },
  work: rankExposures,
})
