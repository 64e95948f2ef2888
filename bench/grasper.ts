/** The one device of the records that are measured: a body of `device-registered`. */
export const grasper = {
  device: 'device:grasper',
  name: 'Grasper',
  contact: 'critical',
  steam: 'allowed',
  lumens: [],
  parts: 1,
  insulated: false,
  optic: false,
  singleUse: false,
} as const
