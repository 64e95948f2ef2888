import type { Source } from '#units/source.ts'
import { agentReview, bathProposal, cdcAgents, cdcScopeTimes, clearedAgents, labelFromMemory } from './sources.ts'

/* The products by their composition. Brands are left out on purpose: the label of the one in hand decides. */

/** A figure with where it comes from. */
export interface Figure {
  readonly value: number
  readonly source: Source
}

/** Contact time and the lowest temperature that it holds for. */
export interface ContactRow {
  readonly minutes: Figure
  readonly celsius: Figure
}

export interface ProductRow {
  readonly id: string
  readonly agent: string
  /** By hand in a tray; in a reprocessor that keeps the temperature; by the societies instead of the label. */
  readonly disinfect: { readonly manual?: ContactRow; readonly reprocessor?: ContactRow; readonly society?: ContactRow }
  readonly sterilise: { readonly manual?: ContactRow; readonly reprocessor?: ContactRow }
  readonly reuseDays: Figure
  readonly singleUse: boolean
  /** Null where only the label knows it: then a strip is read as passed or failed. */
  readonly minimumPercent: Figure | null
  readonly testEachUse: boolean
  readonly unopenedMonths: Figure
  readonly family: 'glutaraldehyde' | 'orthoPhthalaldehyde' | 'peroxygen' | 'chlorine'
  readonly notes: readonly string[]
}

const at = (value: number, source: Source): Figure => ({ value, source })
const contact = (minutes: number, celsius: number, source: Source): ContactRow => ({
  minutes: at(minutes, source),
  celsius: at(celsius, source),
})
const hours = (count: number, celsius: number, source: Source): ContactRow => contact(count * 60, celsius, source)

const common = { singleUse: false, testEachUse: true, unopenedMonths: at(24, cdcAgents) } as const
const glutaraldehyde = {
  ...common,
  family: 'glutaraldehyde',
  notes: ['Activate before use.', 'Fixes blood and protein: clean first.', 'Slow against mycobacteria.'],
} as const
const peroxygen = { ...common, family: 'peroxygen', notes: ['Harms the eyes.'] } as const
const labelKnows = null

export const productTable = Object.freeze([
  {
    ...glutaraldehyde,
    id: 'glutaraldehyde-2',
    agent: 'Glutaraldehyde 2.0 %',
    disinfect: { manual: contact(45, 25, cdcScopeTimes), society: contact(20, 20, cdcScopeTimes) },
    sterilise: { manual: hours(10, 25, agentReview) },
    reuseDays: at(14, agentReview),
    minimumPercent: at(1.5, cdcAgents),
  },
  {
    ...glutaraldehyde,
    id: 'glutaraldehyde-2.4',
    agent: 'Glutaraldehyde 2.4 %',
    disinfect: { manual: contact(45, 25, cdcScopeTimes), society: contact(20, 20, cdcScopeTimes) },
    sterilise: { manual: hours(10, 25, agentReview) },
    reuseDays: at(14, agentReview),
    minimumPercent: at(1.5, cdcAgents),
  },
  {
    ...glutaraldehyde,
    id: 'glutaraldehyde-2.5',
    agent: 'Glutaraldehyde 2.5 %',
    disinfect: {
      manual: contact(90, 25, labelFromMemory),
      reprocessor: contact(5, 35, agentReview),
      society: contact(20, 20, cdcScopeTimes),
    },
    sterilise: { manual: hours(10, 25, agentReview) },
    reuseDays: at(14, agentReview),
    minimumPercent: at(1.5, cdcAgents),
  },
  {
    ...glutaraldehyde,
    id: 'glutaraldehyde-3.4',
    agent: 'Glutaraldehyde 3.4 %',
    disinfect: { manual: contact(90, 25, labelFromMemory), society: contact(20, 20, cdcScopeTimes) },
    sterilise: { manual: hours(10, 25, agentReview) },
    reuseDays: at(28, agentReview),
    minimumPercent: at(2.1, labelFromMemory),
  },
  {
    ...glutaraldehyde,
    id: 'glutaraldehyde-3.4-isopropanol',
    agent: 'Glutaraldehyde 3.4 % with isopropanol',
    disinfect: { manual: contact(10, 20, agentReview), reprocessor: contact(5, 25, labelFromMemory) },
    sterilise: { reprocessor: hours(6, 25, clearedAgents) },
    reuseDays: at(14, agentReview),
    minimumPercent: labelKnows,
    notes: [...glutaraldehyde.notes, 'Contains alcohol: flammable.'],
  },
  {
    ...glutaraldehyde,
    id: 'glutaraldehyde-1.12-phenate',
    agent: 'Glutaraldehyde 1.12 % with phenol and phenate 1.93 %',
    disinfect: { manual: contact(20, 25, agentReview) },
    sterilise: { manual: hours(12, 25, agentReview) },
    reuseDays: at(14, agentReview),
    minimumPercent: labelKnows,
  },
  {
    ...common,
    id: 'ortho-phthalaldehyde-0.55',
    agent: 'Ortho-phthalaldehyde 0.55 %',
    family: 'orthoPhthalaldehyde',
    disinfect: { manual: contact(12, 20, cdcAgents), reprocessor: contact(5, 25, cdcAgents) },
    sterilise: {},
    reuseDays: at(14, cdcAgents),
    minimumPercent: at(0.3, cdcAgents),
    notes: [
      'Stains protein, skin and cloth.',
      'Not for urological instruments of a patient who had bladder cancer.',
      'Neutralise with glycine.',
    ],
  },
  {
    ...peroxygen,
    id: 'hydrogen-peroxide-7.5',
    agent: 'Hydrogen peroxide 7.5 %',
    disinfect: { manual: contact(30, 20, cdcAgents) },
    sterilise: { manual: hours(6, 20, cdcAgents) },
    reuseDays: at(21, cdcAgents),
    minimumPercent: at(6, cdcAgents),
    notes: [...peroxygen.notes, 'Attacks zinc, copper, brass, nickel and silver plating.'],
  },
  {
    ...peroxygen,
    id: 'hydrogen-peroxide-2',
    agent: 'Hydrogen peroxide 2.0 %, accelerated',
    disinfect: { manual: contact(8, 20, agentReview) },
    sterilise: {},
    reuseDays: at(14, labelFromMemory),
    minimumPercent: at(1.5, labelFromMemory),
  },
  {
    ...peroxygen,
    id: 'hydrogen-peroxide-7.35-peracetic-0.23',
    agent: 'Hydrogen peroxide 7.35 % with peracetic acid 0.23 %',
    disinfect: { manual: contact(15, 20, cdcAgents) },
    sterilise: { manual: hours(3, 20, cdcAgents) },
    reuseDays: at(14, cdcAgents),
    minimumPercent: labelKnows,
    testEachUse: false,
  },
  {
    ...peroxygen,
    id: 'hydrogen-peroxide-1-peracetic-0.08',
    agent: 'Hydrogen peroxide 1.0 % with peracetic acid 0.08 %',
    disinfect: { manual: contact(25, 20, agentReview) },
    sterilise: { manual: hours(8, 20, agentReview) },
    reuseDays: at(14, labelFromMemory),
    minimumPercent: labelKnows,
  },
  {
    ...peroxygen,
    id: 'hydrogen-peroxide-8.3-peracetic-7',
    agent: 'Hydrogen peroxide 8.3 % with peracetic acid 7.0 %',
    disinfect: { reprocessor: contact(5, 25, labelFromMemory) },
    sterilise: { manual: contact(300, 25, agentReview) },
    reuseDays: at(5, labelFromMemory),
    minimumPercent: labelKnows,
  },
  {
    ...peroxygen,
    id: 'peracetic-0.2',
    agent: 'Peracetic acid 0.2 %, in its own machine',
    disinfect: {},
    sterilise: { reprocessor: contact(12, 50, agentReview) },
    reuseDays: at(1, bathProposal),
    singleUse: true,
    minimumPercent: labelKnows,
    unopenedMonths: at(6, cdcAgents),
    notes: ['Used once, in a machine only, at 50 to 56 °C.'],
  },
  {
    ...peroxygen,
    id: 'peracetic-0.31',
    agent: 'Peracetic acid 3100 to 3400 ppm',
    disinfect: { manual: contact(7, 20, clearedAgents) },
    sterilise: { manual: hours(2, 20, clearedAgents) },
    reuseDays: at(5, clearedAgents),
    minimumPercent: labelKnows,
  },
  {
    ...common,
    id: 'chlorine-400-ppm',
    agent: 'Hypochlorite or hypochlorous acid, 400 to 450 ppm chlorine',
    family: 'chlorine',
    disinfect: { manual: contact(10, 20, agentReview) },
    sterilise: {},
    reuseDays: at(1, bathProposal),
    minimumPercent: labelKnows,
    notes: ['Attacks metal. Fresh each day unless the label allows more.'],
  },
] as const satisfies readonly ProductRow[])
