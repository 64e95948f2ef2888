import type { Source } from '#units/source.ts'

export const annuitySource: Source = {
  title: 'Drummond and others, Methods for the Economic Evaluation of Health Care Programmes',
  clause: 'capital outlays as equivalent annual cost',
  status: 'unverified',
}
export const costProposal: Source = { title: 'What one use costs, part by part', status: 'proposal' }
