import { z } from 'zod'
import { defineWorking } from '../working.ts'

import { nhsnWindowSource } from './sources.ts'

const ninetyDays = [
  'BRST',
  'CARD',
  'CBGB',
  'CBGC',
  'CRAN',
  'FUSN',
  'FX',
  'HER',
  'HPRO',
  'KPRO',
  'PACE',
  'PVBY',
  'VSHN',
] as const
const thirtyDays = [
  'AAA',
  'AMP',
  'APPY',
  'AVSD',
  'BILI',
  'CEA',
  'CHOL',
  'COLO',
  'CSEC',
  'GAST',
  'HTP',
  'HYST',
  'KTP',
  'LAM',
  'LTP',
  'NECK',
  'NEPH',
  'OVRY',
  'PRST',
  'REC',
  'RFUSN',
  'SB',
  'SPLE',
  'THOR',
  'THYR',
  'VHYS',
  'XLAP',
] as const
const procedures = [...ninetyDays, ...thirtyDays] as const

/** Days of surveillance for a category of operation and a depth. */
export function ssiWindowDays(
  procedure: (typeof procedures)[number],
  depth: 'superficial_incisional' | 'deep_incisional' | 'organ_space',
): 30 | 90 {
  return depth !== 'superficial_incisional' && ninetyDays.some((code) => code === procedure) ? 90 : 30
}

export const ssiWindowDaysWorking = defineWorking({
  id: 'ssi-window-days',
  title: 'Length of the window by operation and depth',
  group: 'statistics',
  method:
    '90 days for deep and organ/space infections after the listed operations (breast, cardiac, bypass, craniotomy, fusion, fracture, hernia, prosthesis, pacemaker, peripheral bypass, shunt); 30 days for everything else and for every superficial one.',
  validity:
    'The list is from memory of the national protocol: check the current edition. Until 2013 the window after an implant was one year.',
  sources: [nhsnWindowSource],
  input: z.strictObject({
    procedure: z.enum(procedures).describe('code of the operation category'),
    depth: z.enum(['superficial_incisional', 'deep_incisional', 'organ_space']).describe('deepest tissue reached'),
  }),
  output: z.strictObject({ value: z.number().describe('days') }),
  example: { input: { procedure: 'HER', depth: 'deep_incisional' }, output: { value: 90 } },
  work: ({ procedure, depth }) => ({ value: ssiWindowDays(procedure, depth) }),
})
