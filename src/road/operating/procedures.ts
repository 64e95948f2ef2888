import { z } from 'zod'
import type { WoundClass } from './entries.ts'

/** Laparoscopic operations as far as rules of wound class and prophylaxis tell them apart. */
export const Procedure = z.enum([
  'inguinalHernia',
  'ventralHernia',
  'splenectomy',
  'adrenalectomy',
  'fundoplication',
  'varicocele',
  'diagnosticLaparoscopy',
  'tubalLigation',
  'cholecystectomy',
  'bileDuct',
  'bariatric',
  'colectomy',
  'rectal',
  'smallBowel',
  'appendectomy',
  'hysterectomy',
  'nephrectomy',
  'cystotomy',
  'perforatedUlcer',
  'other',
])
export type Procedure = z.infer<typeof Procedure>

interface ProcedureFacts {
  /** The wound class when nothing unusual is met. */
  readonly usual: WoundClass
  /** Never entered as clean. */
  readonly neverClean: boolean
  /** Whether prophylaxis is customary; the gall bladder depends on risk and policy. */
  readonly prophylaxis: 'yes' | 'no' | 'byRisk'
}

const clean: ProcedureFacts = { usual: 'I', neverClean: false, prophylaxis: 'yes' }
const entered: ProcedureFacts = { usual: 'II', neverClean: false, prophylaxis: 'yes' }
const neverCleanOnes: ProcedureFacts = { usual: 'II', neverClean: true, prophylaxis: 'yes' }

export const procedureFacts: Readonly<Record<Procedure, ProcedureFacts>> = Object.freeze({
  inguinalHernia: clean,
  ventralHernia: clean,
  splenectomy: clean,
  adrenalectomy: clean,
  fundoplication: clean,
  varicocele: { ...clean, prophylaxis: 'no' },
  diagnosticLaparoscopy: { ...clean, prophylaxis: 'no' },
  tubalLigation: { ...clean, prophylaxis: 'no' },
  cholecystectomy: { ...neverCleanOnes, prophylaxis: 'byRisk' },
  bileDuct: neverCleanOnes,
  bariatric: entered,
  colectomy: neverCleanOnes,
  rectal: neverCleanOnes,
  smallBowel: neverCleanOnes,
  appendectomy: neverCleanOnes,
  hysterectomy: neverCleanOnes,
  nephrectomy: entered,
  cystotomy: entered,
  perforatedUlcer: { ...entered, usual: 'IV' },
  other: { ...clean, prophylaxis: 'yes' },
})
