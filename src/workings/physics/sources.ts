import type { Source } from '#units/source.ts'

/** Published texts that more than one working rests on. */
export const if97Source: Source = {
  title: 'IAPWS R7-97(2012), Industrial Formulation 1997',
  clause: 'region 4, equations 30 and 31',
  status: 'confirmed',
}

export const threeConstantSource: Source = {
  title: 'Three-constant saturation equation of the EN sterilizer standards, after Irvine and Liley 1984',
  clause: 'coefficients as quoted in process-engineering texts',
  status: 'secondary',
}

export const threeConstantUseSource: Source = {
  title: 'EN 285 and EN 13060',
  clause: 'use of the three-constant equation as the theoretical temperature',
  status: 'unverified',
}

export const daltonSource: Source = {
  title: "Dalton's law of partial pressures",
  clause: "steam's share of the pressure is (1 - air fraction) x total",
  status: 'computed',
}

export const f0Source: Source = {
  title: 'Ph. Eur. 5.1.5 and 21 CFR 212.3 (proposed 1976)',
  clause: 'definition of F0',
  status: 'confirmed',
}

export const exactPieceSource: Source = {
  title: 'Closed form of the integral over one straight piece of the log',
  clause: 'duration x (L1 - L0) / ln(L1/L0)',
  status: 'computed',
}

export const a0Source: Source = { title: 'ISO 15883-1', clause: 'Annex B, definition of A0', status: 'confirmed' }

export const a0FloorSource: Source = {
  title: 'ISO 15883-1',
  clause: 'Annex B, nothing counted below 65 degC; quoted in a washer manual',
  status: 'secondary',
}

export const logLinearSource: Source = {
  title: 'Log-linear inactivation',
  clause: 'log10 N = log10 N0 - F/D, F and D at the same reference temperature',
  status: 'confirmed',
}

export const standardAtmosphereSource: Source = {
  title: 'International standard atmosphere',
  clause: 'barometric formula of the troposphere',
  status: 'unverified',
}

export const steamDifferenceSource: Source = {
  title: 'EN 285',
  clause: '8.3.1.3, 2 K between temperatures and theoretical temperature',
  status: 'unverified',
}

export const leakSource: Source = {
  title: 'EN 285 and EN 13060',
  clause: '0.13 kPa/min over 600 s after 300 s of stabilisation',
  status: 'confirmed',
}

export const leakFallSource: Source = {
  title: 'A falling pressure is not evaluable',
  clause: 'a fall faster than the permitted rise',
  status: 'proposal',
}

export const dilutionSource: Source = {
  title: 'Well-mixed dilution of air by steam pulses',
  clause: 'x = product of low/high',
  status: 'computed',
}

export const aerationSources: readonly [Source, ...Source[]] = [
  {
    title: 'CDC Guideline for Disinfection and Sterilization, 2008',
    clause: 'aeration 8 to 12 h at 50 to 60 degC',
    status: 'confirmed',
  },
  { title: 'The pairs 12 h at 50 degC and 8 h at 60 degC', status: 'unverified' },
  { title: 'CDC guideline, copy', clause: '7 days at 20 degC', status: 'secondary' },
  { title: 'Interpolated times are advice only', status: 'proposal' },
  { title: 'Crank, The Mathematics of Diffusion', clause: 'plane sheet', status: 'unverified' },
  {
    title: 'Two-part decay of ethylene oxide residues, 1983',
    clause: 'sharp break in the log plot',
    status: 'confirmed',
  },
]

export const exposureLimitSource: Source = {
  title: '29 CFR 1910.1047 (ethylene oxide)',
  clause: '1 ppm over 8 h, 0.5 ppm action level, 5 ppm over 15 min',
  status: 'confirmed',
}

export const exposureTimeSource: Source = {
  title: 'Time nobody measured is not evaluable',
  clause: 'unless it is declared unexposed',
  status: 'proposal',
}

export const bathSources: readonly [Source, ...Source[]] = [
  {
    title: 'FDA guidance for labels of liquid chemical sterilants',
    clause: 'test before each use; strength decides, not days',
    status: 'secondary',
  },
  { title: 'Never beyond the reuse days even if the strip passes; topping up resets nothing', status: 'unverified' },
  { title: 'The bath must last until the contact ends', status: 'proposal' },
]
