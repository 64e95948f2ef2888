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
