/* An ethylene oxide steriliser, and a device that steam would spoil and that gas may treat. */

export const gasSteriliser = {
  machine: 'machine:eo' as const,
  name: 'Gas steriliser',
  type: 'ethyleneOxideSteriliser' as const,
  airRemoval: 'none' as const,
  chamberLitres: 120,
  programs: ['ethylene-oxide'] as [string],
}

export const gasDevice = {
  device: 'device:d' as const,
  name: 'Camera cable',
  contact: 'critical' as const,
  steam: 'barred' as const,
  makerMethods: [{ method: 'ethyleneOxide' as const }],
  moistureStable: true,
  vacuumStable: true,
  lumens: [],
  parts: 1,
  insulated: false,
  optic: false,
  singleUse: false,
}
