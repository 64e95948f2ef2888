import type { Source } from '#units/source.ts'

/* Where the numbers and rules of baths come from. */

export const agentReview: Source = {
  title: 'Rutala and Weber, Infect Dis Clin N Am',
  edition: '2016;30:609',
  clause: 'Table 1',
  status: 'confirmed',
}

export const cdcAgents: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 4',
  status: 'confirmed',
}

export const cdcScopeTimes: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities, as quoted',
  edition: '2008',
  clause: 'glutaraldehyde: 45 min at 25 °C by the label, 20 min at 20 °C by the societies after cleaning',
  status: 'secondary',
}

export const clearedAgents: Source = {
  title: 'FDA list of cleared sterilants and high-level disinfectants',
  edition: '2015 and 2023',
  status: 'confirmed',
}

export const labelFromMemory: Source = { title: 'Label of the product, from memory', status: 'unverified' }

export const labelDecides: Source = {
  title: 'Label of the product',
  clause: 'the written instructions of the chemical decide over every table',
  status: 'commonPractice',
}

export const testEachUse: Source = {
  title: 'FDA guidance for labels of liquid chemical sterilants',
  clause: 'the strength is tested before each use; strength decides, not days',
  status: 'secondary',
}

export const failedStripPractice: Source = {
  title: 'Training texts on liquid disinfection',
  clause: 'a bath that fails is discarded whole; it is neither topped up nor used longer',
  status: 'secondary',
}

export const clockPractice: Source = {
  title: 'Label of the product, from memory',
  clause: 'topping up resets nothing; never beyond the reuse days',
  status: 'unverified',
}

export const bathProposal: Source = { title: 'Use of a bath', status: 'proposal' }

export const stripControl: Source = {
  title: 'ANSI/AAMI ST58, as quoted in training texts',
  clause: 'three strips in full strength pass, three in half strength fail',
  status: 'secondary',
}

export const rinseLabel: Source = {
  title: 'Label of ortho-phthalaldehyde, from memory',
  clause: 'three separate rinses in fresh water',
  status: 'unverified',
}

export const rinseWater: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities, from memory',
  clause: 'sterile or 0.2 µm filtered water, otherwise tap water followed by alcohol and forced air',
  status: 'unverified',
}

export const printedExpiry: Source = {
  title: 'The record of this unit',
  clause: 'the expiry printed on the container, as it was recorded when the bath was poured',
  status: 'computed',
}

export const cystoscopyAnaphylaxis: Source = {
  title: 'J Allergy Clin Immunol',
  edition: '2004',
  clause: 'nine anaphylactic reactions in four patients after cystoscopy',
  status: 'confirmed',
}

export const tolerantMycobacteria: Source = {
  title: 'Review of rapidly growing mycobacteria',
  clause:
    'a strain that survives glutaraldehyde up to 7 % at label times; killed by ortho-phthalaldehyde and peracetic acid',
  status: 'confirmed',
}

export const notSterile: Source = {
  title: 'Liquid chemical treatment',
  clause: 'nothing wraps the instrument: it is ready for use at once and is not stored as sterile',
  status: 'commonPractice',
}
