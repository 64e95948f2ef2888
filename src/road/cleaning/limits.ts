import type { Source } from '#units/source.ts'
import type { Limit } from '../policy.ts'

export const keepMoist: Source = {
  title: 'Cleaning as soon as possible after use; dry transport at most 6 h',
  edition: 'RKI/DGSV, from memory',
  status: 'unverified',
}

export const st79Cleaning: Source = {
  title: 'ANSI/AAMI ST79, as quoted in training texts',
  clause: 'cleaning and inspection',
  status: 'secondary',
}

export const a0Standard: Source = { title: 'ISO 15883-1', clause: 'Annex B', status: 'confirmed' }

export const brushPractice: Source = {
  title: 'ANSI/AAMI ST79 and AORN, from memory',
  clause: 'lumens are brushed and flushed; the instructions of the maker decide',
  status: 'unverified',
}

export const insulationStudy: Source = {
  title: 'Montero et al., Surg Endosc',
  edition: '2010;24:462-465',
  clause: 'high-voltage test: 19 % of reusable instruments failed',
  status: 'confirmed',
}

export const soakCautionMinutes: Limit<number> = {
  id: 'soak-caution-minutes',
  title: 'Wait from last use to soak that is said aloud',
  unit: 'minutes',
  value: 20,
  source: { title: 'Wait from use to soak', clause: 'as soon as possible, keep moist', status: 'proposal' },
  allowed: { from: 1, to: 720 },
}

export const soakAlarmMinutes: Limit<number> = {
  id: 'soak-alarm-minutes',
  title: 'Wait from last use to soak or wash that is an alarm',
  unit: 'minutes',
  value: 360,
  source: keepMoist,
  allowed: { from: 10, to: 1440 },
}

export const precleanBelowC: Limit<number> = {
  id: 'preclean-water-below-c',
  title: 'Water for pre-cleaning is colder than this, or protein sets',
  unit: '°C',
  value: 43,
  source: { ...st79Cleaning, clause: 'water for pre-cleaning' },
  allowed: { from: 20, to: 45 },
}

export const a0Instruments: Limit<number> = {
  id: 'a0-instruments',
  title: 'A0 of the washer for instruments that are sterilised afterwards',
  unit: 's',
  value: 600,
  source: a0Standard,
  allowed: { from: 60, to: 12_000 },
}

export const a0ResistantViruses: Limit<number> = {
  id: 'a0-resistant-viruses',
  title: 'A0 of the washer where heat-resistant viruses may be present',
  unit: 's',
  value: 3000,
  source: a0Standard,
  allowed: { from: 600, to: 12_000 },
}

export const resistantVirusesExpected: Limit<boolean> = {
  id: 'resistant-viruses-expected',
  title: 'Wash every load for heat-resistant viruses',
  unit: 'yes or no',
  value: false,
  source: { title: 'A0 of instruments', clause: 'which of the two applies', status: 'proposal' },
}

export const cleaningLimits = Object.freeze([
  soakCautionMinutes,
  soakAlarmMinutes,
  precleanBelowC,
  a0Instruments,
  a0ResistantViruses,
  resistantVirusesExpected,
] as const)
