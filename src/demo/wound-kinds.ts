import type { Bodies } from '#road/kinds.ts'

type Noted = Omit<Bodies['wound-noted'], 'wound' | 'case' | 'onsetAt'>
type Judged = Pick<Bodies['wound-judged'], 'outcome' | 'criteria'>
type Cultured = Omit<Bodies['wound-cultured'], 'wound'>

/** A wound as it is seen, as it is judged, and what the laboratory says afterwards. */
export interface WoundSeen extends Noted {
  /** Null while nobody has judged it. */
  readonly judged: Judged | null
  readonly cultured?: Cultured & { readonly afterDays: number }
}

const infection = (...criteria: Judged['criteria']): Judged => ({ outcome: 'infection', criteria })
const noInfection = (...criteria: Judged['criteria']): Judged => ({ outcome: 'notInfection', criteria })

function grew(
  organism: string,
  material: Cultured['material'],
): Pick<WoundSeen, 'culture' | 'acidFast' | 'organism' | 'cultured'> {
  const growth = { culture: 'growth', acidFast: 'notDone', organism } as const
  return { ...growth, cultured: { material, ...growth, afterDays: 2 } }
}

const notTaken = { culture: 'notTaken', acidFast: 'notDone' } as const

/** The ordinary infections of a year. */
export const usualWounds: readonly [WoundSeen, ...WoundSeen[]] = [
  {
    depth: 'superficial',
    signs: 'Redness and pus at the umbilical port.',
    ...grew('Staphylococcus aureus', 'pus'),
    judged: infection('pusFromIncision', 'organismFromIncision'),
  },
  {
    depth: 'superficial',
    signs: 'Tender, warm port site with discharge.',
    ...grew('Escherichia coli', 'swab'),
    judged: infection('organismFromIncision'),
  },
  {
    depth: 'superficial',
    signs: 'Discharge from the umbilical port.',
    ...notTaken,
    judged: infection('diagnosedBySurgeon'),
  },
  {
    depth: 'deep',
    signs: 'Fever, swelling under the fascia, pus on opening.',
    ...grew('Enterococcus faecalis', 'pus'),
    judged: infection('pusFromDeep'),
  },
  {
    depth: 'organSpace',
    signs: 'Fever on day 8, collection under the liver on ultrasound.',
    ...grew('Klebsiella pneumoniae', 'fluid'),
    judged: infection('abscessOfSpace', 'organismFromSpace'),
  },
  {
    depth: 'superficial',
    signs: 'Redness beyond 2 cm, opened in the clinic.',
    ...grew('Staphylococcus epidermidis', 'swab'),
    judged: infection('openedBySurgeonWithSigns', 'organismFromIncision'),
  },
]

/** Wounds that only look like an infection. */
export const lookAlikes: readonly [WoundSeen, ...WoundSeen[]] = [
  {
    depth: 'superficial',
    signs: 'Red at one stitch, a drop of pus there only; well when the stitch was out.',
    ...notTaken,
    judged: noInfection('pusFromIncision', 'stitchAbscessOnly'),
  },
  {
    depth: 'superficial',
    signs: 'Swollen, opened: old blood, no pus.',
    culture: 'noGrowth',
    acidFast: 'notDone',
    judged: noInfection('openedBySurgeonWithSigns', 'cultureNegative'),
  },
]

const mycobacteria = { material: 'tissue', culture: 'growth', acidFast: 'positive' } as const

/** The late wounds of the second story, in four forms. */
export const lateWounds = {
  grown: {
    depth: 'deep',
    signs:
      'Two hard nodules at the port sites, one with a sinus. No fever. No better after ten days of the usual antibiotic.',
    culture: 'growth',
    acidFast: 'positive',
    organism: 'Mycobacterium, rapidly growing, species to follow',
    judged: infection('pusFromDeep', 'organismFromIncision'),
    cultured: { ...mycobacteria, organism: 'Mycobacterium chelonae', afterDays: 6 },
  },
  stained: {
    depth: 'deep',
    signs:
      'Two hard nodules at the port sites, one with a sinus. No fever. No better after ten days of the usual antibiotic.',
    culture: 'pending',
    acidFast: 'positive',
    organism: 'Acid-fast rods in tissue',
    judged: infection('pusFromDeep'),
    cultured: { ...mycobacteria, organism: 'Mycobacterium chelonae', afterDays: 9 },
  },
  silent: {
    depth: 'superficial',
    signs: 'Painless nodule under the healed umbilical port, thin discharge.',
    culture: 'noGrowth',
    acidFast: 'negative',
    judged: infection('diagnosedBySurgeon'),
  },
  /** Nobody has taken tissue yet, and nobody has judged it. */
  untested: {
    depth: 'superficial',
    signs: 'Late nodule at the right port, slowly larger.',
    ...notTaken,
    judged: null,
  },
} as const satisfies Readonly<Record<string, WoundSeen>>
