/** The parts of the page of an investigation, as its address names them. */
export const parts = {
  hypotheses: 'hypotheses',
  days: 'days',
  lineList: 'line-list',
  curve: 'weeks',
  ranking: 'comparison',
  figures: 'figures',
  samples: 'samples',
  actions: 'actions',
  steps: 'steps',
  close: 'close',
} as const
