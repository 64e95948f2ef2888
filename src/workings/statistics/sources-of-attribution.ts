import type { Source } from '#units/source.ts'

/** Published texts that more than one working of this group rests on. */
export const fisherSource: Source = {
  title: 'Fisher, The logic of inductive inference, 1935',
  clause: 'exact test given the margins; two-sided by the likelihood of the tables',
  status: 'unverified',
}

export const conditionalOddsSource: Source = {
  title: 'Cornfield 1956; Breslow and Day 1980',
  clause: 'conditional likelihood of the odds ratio, non-central hypergeometric limits',
  status: 'unverified',
}

export const oddsCheckSource: Source = {
  title: 'Limits by root finding in ln OR',
  clause: 'compared with an independent non-central hypergeometric implementation to 2e-6',
  status: 'computed',
}

export const scanSource: Source = {
  title: 'Kulldorff, A spatial scan statistic, 1997',
  clause: 'likelihood ratios of the Poisson and Bernoulli models, high rates only',
  status: 'confirmed',
}

export const monteCarloSource: Source = {
  title: 'Monte-Carlo p-value',
  clause: 'p = (r + 1)/(R + 1)',
  status: 'confirmed',
}

export const westfallYoungSource: Source = {
  title: 'Westfall and Young, Resampling-Based Multiple Testing, 1993',
  clause: 'min-P, single step and step down',
  status: 'unverified',
}

export const closedFormSource: Source = { title: 'Closed form', status: 'computed' }
