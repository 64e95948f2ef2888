import type { Bodies } from '../kinds.ts'

type Device = Bodies['device-registered']

/*
 * Generic laparoscopic devices to copy and edit. Sizes are usual ones: measure your own. What a maker allows is left
 * open on purpose: until its instructions are on file, no way is open to the device.
 */

const plain: Omit<Device, 'device' | 'name'> = {
  contact: 'critical',
  steam: 'noInstructionsOnFile',
  lumens: [],
  parts: 1,
  insulated: false,
  optic: false,
  singleUse: false,
  domain: 'laparoscopy',
}
const steel: Partial<Device> = { materials: ['stainlessSteel'] }
const lumen = (diameterMm: number, lengthMm: number): Device['lumens'][number] => ({
  diameterMm,
  lengthMm,
  openEnds: 2,
  material: 'stainlessSteel',
})

function jawed(key: string, name: string): Device {
  return {
    ...plain,
    device: `device:${key}`,
    name,
    parts: 3,
    partNames: ['Handle', 'Insulated sheath', 'Insert with jaws'],
    insulated: true,
    materials: ['stainlessSteel', 'ptfe', 'peek'],
    lumens: [lumen(2.8, 330)],
  }
}

function solid(key: string, name: string): Device {
  return { ...plain, ...steel, device: `device:${key}`, name }
}

function port(key: string, name: string, diameterMm: number): Device {
  return {
    ...plain,
    device: `device:${key}`,
    name,
    parts: 4,
    partNames: ['Cannula', 'Valve housing', 'Seal', 'Tap'],
    materials: ['stainlessSteel', 'silicone'],
    lumens: [lumen(diameterMm, 105)],
  }
}

function optic(key: string, name: string): Device {
  return { ...plain, device: `device:${key}`, name, optic: true, materials: ['stainlessSteel', 'glass'] }
}

export const starterDevices: readonly Device[] = Object.freeze([
  optic('telescope-10-0', 'Telescope 10 mm, 0 degrees'),
  optic('telescope-10-30', 'Telescope 10 mm, 30 degrees'),
  optic('telescope-5-30', 'Telescope 5 mm, 30 degrees'),
  { ...plain, device: 'device:light-cable', name: 'Light cable', materials: ['glass', 'silicone'] },
  {
    ...plain,
    device: 'device:camera-head',
    name: 'Camera head with cable',
    contact: 'nonCritical',
    optic: true,
    electronics: true,
  },
  port('cannula-11', 'Cannula 11 mm with valve', 11),
  port('cannula-6', 'Cannula 6 mm with valve', 6),
  port('cannula-open', 'Cannula 11 mm for open entry', 11),
  solid('obturator-blunt', 'Obturator, blunt'),
  solid('obturator-pointed', 'Obturator, pointed'),
  solid('reducer', 'Reducing sleeve 11 to 5 mm'),
  {
    ...plain,
    ...steel,
    device: 'device:gas-needle',
    name: 'Gas needle 120 mm with spring',
    parts: 2,
    partNames: ['Outer needle', 'Inner cannula with tap'],
    lumens: [lumen(1.6, 120)],
  },
  jawed('grasper-fenestrated', 'Grasper, fenestrated, 5 mm'),
  jawed('grasper-atraumatic', 'Grasper, atraumatic, 5 mm'),
  jawed('grasper-toothed', 'Grasper with teeth, 5 mm'),
  jawed('bowel-grasper', 'Bowel grasper, long, 5 mm'),
  jawed('dissector-curved', 'Dissector, curved, 5 mm'),
  jawed('scissors-curved', 'Scissors, curved, 5 mm'),
  jawed('scissors-hook', 'Scissors, hook, 5 mm'),
  jawed('bipolar-forceps', 'Bipolar forceps, 5 mm'),
  { ...solid('hook-electrode', 'Hook electrode, 5 mm'), insulated: true, materials: ['stainlessSteel', 'ptfe'] },
  { ...solid('spatula-electrode', 'Spatula electrode, 5 mm'), insulated: true, materials: ['stainlessSteel', 'ptfe'] },
  {
    ...plain,
    device: 'device:current-cable',
    name: 'Cable for current',
    contact: 'nonCritical',
    materials: ['silicone'],
  },
  {
    ...plain,
    ...steel,
    device: 'device:suction-irrigation',
    name: 'Suction and irrigation tube, 5 mm',
    parts: 3,
    partNames: ['Tube', 'Valve body', 'Two valve pistons'],
    lumens: [lumen(4.2, 330)],
  },
  { ...jawed('clip-applier', 'Clip applier, 10 mm'), insulated: false, materials: ['stainlessSteel'] },
  { ...jawed('needle-holder', 'Needle holder, 5 mm'), insulated: false, materials: ['stainlessSteel'] },
  { ...solid('knot-pusher', 'Knot pusher, 5 mm') },
  {
    ...solid('fan-retractor', 'Retractor, five fingers'),
    parts: 2,
    partNames: ['Sheath', 'Fan'],
    lumens: [lumen(3.5, 340)],
  },
  { ...jawed('biopsy-forceps', 'Biopsy forceps, 5 mm'), insulated: false, materials: ['stainlessSteel'] },
  { ...solid('aspiration-needle', 'Aspiration needle, 5 mm'), lumens: [lumen(1.2, 450)] },
  {
    ...solid('uterine-manipulator', 'Uterine manipulator'),
    domain: 'gynaecology',
    parts: 4,
    partNames: ['Shaft', 'Handle', 'Cone', 'Locking screw'],
    lumens: [lumen(3, 300)],
  },
  { ...solid('fascia-closer', 'Needle to close fascia') },
])
