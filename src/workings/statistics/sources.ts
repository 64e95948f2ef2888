import type { Source } from '#units/source.ts'

/** Published texts that more than one working rests on. */
export const nhsnWindowSource: Source = {
  title: 'CDC/NHSN surgical site infection protocol, chapter 9',
  clause: 'surveillance period; day 1 is the procedure date; list of 90-day procedures',
  status: 'unverified',
}
export const gaynesSource: Source = {
  title: 'Gaynes 2001',
  clause: 'basic risk index and laparoscope',
  status: 'confirmed',
}
export const sirSource: Source = {
  title: 'CDC/NHSN, standardised infection ratio',
  clause: 'observed / predicted; none below 1.0 predicted',
  status: 'confirmed',
}
export const newcombeSource: Source = {
  title: 'Newcombe 1998, intervals for the single proportion',
  status: 'unverified',
}
export const zeroSource: Source = {
  title: 'Hanley and Lippman-Hand 1983; Eypasch, BMJ 1995;311:619',
  clause: 'zero numerators',
  status: 'confirmed',
}
export const reynoldsSource: Source = {
  title: 'Reynolds and Stoumbos 1999',
  clause: 'Bernoulli CUSUM',
  status: 'confirmed',
}
export const cycleSource: Source = {
  title: 'Regenerative cycles of the CUSUM',
  clause: 'ARL = E(cycle)/P(signal in cycle), list of states after each infection',
  status: 'computed',
}
export const steinerSource: Source = {
  title: 'Steiner, Cook, Farewell, Treasure, Biostatistics 2000;1:441',
  clause: 'risk-adjusted CUSUM',
  status: 'confirmed',
}
export const pairedRoundingSource: Source = {
  title: 'Knoth, Wittenberg, Gan 2019',
  clause: 'paired rounding',
  status: 'secondary',
}
export const exactTailSource: Source = {
  title: 'Exact tails of the binomial and Poisson distributions',
  status: 'computed',
}
