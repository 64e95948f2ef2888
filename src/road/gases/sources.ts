import type { Source } from '#units/source.ts'

/* Where the figures of the low-temperature methods and of the steam tables come from. */

export const cdcSteamTable: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 7, shortest exposure and drying',
  status: 'confirmed',
}

export const st79At135: Source = {
  title: 'ANSI/AAMI ST79',
  clause: 'exposure and drying at 135 °C',
  status: 'unverified',
}

export const immediateUseTable: Source = {
  title: 'Immediate-use steam, exposure times as quoted in training texts',
  clause: 'the same figures as CDC 2008, Table 8',
  status: 'secondary',
}

export const immediateUseRecalled: Source = {
  title: 'Immediate-use steam at 135 °C and with steam-flush pressure-pulse',
  clause: 'exposure',
  status: 'unverified',
}

export const immediateUseRules: Source = {
  title: 'CDC 2008, AORN and ANSI/AAMI ST79',
  clause: 'when immediate use is allowed',
  status: 'unverified',
}

export const immediateUseMeaning: Source = {
  title: 'Definition of immediate use',
  clause: 'shortest possible time to the field; never stored, never kept for another case',
  status: 'secondary',
}

export const gasWindow: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008, text copy',
  clause: 'ethylene oxide: 450 to 1200 mg/L, 37 to 63 °C, 40 to 80 % humidity',
  status: 'secondary',
}

export const gasExposure: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 1, ethylene oxide: 1 to 6 h',
  status: 'confirmed',
}

export const gasSpores: Source = {
  title: 'Resistance of spores to ethylene oxide at 60 % humidity, 1983',
  clause: '15.0 min at 30 °C, 1.1 min at 70 °C; the rest computed',
  status: 'computed',
}

export const halfCycleRule: Source = {
  title: 'ISO 11135 Annex B and ISO 14937',
  clause: 'full exposure at least twice the half cycle',
  status: 'secondary',
}

export const peroxideCancelled: Source = {
  title: 'Hydrogen peroxide gas, practice',
  clause: 'a cancelled cycle sterilised nothing; dry, repack with a new indicator, run again',
  status: 'unverified',
}

export const peroxidePacks: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 6, hydrogen peroxide: no cellulose, no linen, no liquids',
  status: 'confirmed',
}

export const peroxideClaims: Source = {
  title: 'Intended-use statements of hydrogen peroxide sterilisers',
  clause: 'lumens by diameter and length together, lumens and mass of a load',
  status: 'confirmed',
}

export const formaldehydeTrial: Source = {
  title: 'Low-temperature steam with formaldehyde in five programmes',
  edition: '2003',
  clause: 'at 50 °C spores survived in the full load',
  status: 'confirmed',
}

export const formaldehydeStandard: Source = {
  title: 'EN 14180 and ISO 25424',
  clause: '55 to 80 °C',
  status: 'secondary',
}

export const dryHeatTable: Source = {
  title: 'ISO 20857 and WHO, as cited',
  clause: '160 °C 120 min, 170 °C 60 min, 180 °C 30 min; plateau times',
  status: 'secondary',
}

export const dryHeatRecalled: Source = {
  title: 'Dry heat below 160 °C',
  clause: '150 °C 180 min, 140 °C 180 min',
  status: 'unverified',
}

export const peraceticTable: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 4, peracetic acid: 0.2 %, 12 min at 50 to 56 °C',
  status: 'confirmed',
}

export const aerationRange: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 1, aeration 8 to 12 h at 50 to 60 °C',
  status: 'confirmed',
}

export const aerationPair: Source = {
  title: 'Aeration 12 h at 50 °C, 8 h at 60 °C',
  clause: 'which time belongs to which temperature',
  status: 'unverified',
}

export const ambientAeration: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008, text copy',
  clause: '7 days at 20 °C',
  status: 'secondary',
}

export const pairRule: Source = {
  title: 'Release after aeration',
  clause: 'only a listed pair of temperature and time; a time worked out between them is advice',
  status: 'proposal',
}

export const residueTable: Source = {
  title: 'ISO 10993-7',
  edition: '2008',
  clause: 'Table C.1; a newer edition may have moved the figures',
  status: 'confirmed',
}

export const residueTogether: Source = {
  title: 'ISO 10993-7',
  edition: '2008',
  clause: 'all limits that apply hold at once',
  status: 'secondary',
}

export const residueSuperseded: Source = {
  title: 'ISO 10993-7',
  edition: '2008 against 1995',
  clause: '4 mg replaces 20 mg for limited contact',
  status: 'secondary',
}

export const gasInAir: Source = {
  title: '29 CFR 1910.1047 (ethylene oxide)',
  clause: '1 ppm over 8 h, 5 ppm over 15 min, action level 0.5 ppm',
  status: 'confirmed',
}

export const surveillanceDays: Source = {
  title: '29 CFR 1910.1047, training text',
  clause: 'medical surveillance at the action level on 30 days a year',
  status: 'secondary',
}

export const airTable: Source = {
  title: 'CDC Guideline for Disinfection and Sterilization in Healthcare Facilities',
  edition: '2008',
  clause: 'Table 4, limits in air',
  status: 'confirmed',
}

export const airRecalled: Source = {
  title: 'Limits of formaldehyde, peracetic acid and ozone in air',
  clause: 'from memory',
  status: 'unverified',
}

export const sheetModel: Source = {
  title: 'Diffusion out of a plane sheet open on both faces (Crank)',
  clause: 'half-time 0.0492 L²/D',
  status: 'computed',
}
