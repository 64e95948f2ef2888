import type { CardStep } from './step-card.ts'

/** The steps of a card by name, as screens and printed pages say them. */
export const cardStepTitles: Record<CardStep, string> = {
  takeApart: 'Take apart',
  soak: 'Soak',
  brush: 'Brush',
  flush: 'Flush',
  ultrasound: 'Ultrasound',
  rinse: 'Rinse',
  dry: 'Dry',
  inspect: 'Inspect',
  insulation: 'Insulation test',
  function: 'Function test',
  pack: 'Pack',
  route: 'Route',
}
