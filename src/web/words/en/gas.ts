import type { aerationPlaces, aerationStops, cancelCauses } from '#road/gases/entries.ts'

const causes: Record<(typeof cancelCauses)[number], string> = {
  moisture: 'Moisture',
  pressure: 'Pressure',
  concentration: 'Too little gas',
  temperature: 'Temperature',
  power: 'Power failed',
  operator: 'Stopped by hand',
  unknown: 'Not known',
}
const places: Record<(typeof aerationPlaces)[number], string> = {
  sameChamber: 'In the same chamber',
  aerator: 'In an aerator',
  ventilatedPlace: 'In a ventilated place where nobody works',
}

const stops: Record<(typeof aerationStops)[number], string> = {
  power: 'Power failed',
  fault: 'Fault of the aerator',
  temperature: 'It went cold',
  doorOpened: 'The door was opened',
  operator: 'Stopped by hand',
  unknown: 'Not known',
}

/** Words of loads that gas or dry heat sterilises. */
export const gasWords = {
  aeration: 'Aeration',
  held: 'This load is held until its aeration has ended.',
  againNext: 'The aeration was interrupted. Aerate this load again for the whole time.',
  nextCancelled: 'Reject every pack of this load, dry and pack again.',
  notStarted: 'The aeration has not begun. The load is not to be touched.',
  tooCold: 'No listed aeration is this cold: the load cannot be released from it.',
  done: (celsius: number, hours: number) => `Aerated for ${hours} h, never colder than ${celsius} °C.`,
  stopTitle: 'Aeration cancelled or interrupted',
  stop: 'Record that the aeration stopped',
  stops,
  note: 'What happened',
  stoppedAt: (moment: string, cause: string) =>
    `The aeration was interrupted at ${moment} (${cause}). The load stays held: aerate it again for the whole time. The time before does not count.`,
  place: 'Where',
  setC: 'Temperature of the aerator, °C',
  makerHours: 'Longest time that a maker asks, hours',
  begin: 'Start the aeration',
  lowestC: 'Coldest that it was throughout, °C',
  end: 'End the aeration',
  cancelled: (cause: string) => `This cycle was cancelled (${cause}). Nothing in it is sterile.`,
  cancelTitle: 'Cycle cancelled by the machine or by hand',
  cause: 'Cause',
  cancel: 'Record that the cycle was cancelled',
  causes,
  places,
  method: 'Gas and dry heat',
  chart: {
    variables: {
      temperatureC: 'Temperature',
      relativeHumidityPercent: 'Humidity',
      concentrationMgPerL: 'Gas',
      pressureKPa: 'Pressure',
    },
    panel: (variable: string, unit: string, columns: string) => `${variable}, ${unit}: ${columns}`,
    exposure: (minutes: number) => `Exposure ${minutes} min`,
    axis: (minutes: number) => `${minutes} minutes from left to right; shaded: the window of the programme`,
  },
  map: {
    humidity: 'Humidity, %',
    concentration: 'Gas, mg/L',
    stage: 'Stages of the machine, in words',
    understood: 'Read as',
    unread: 'not used',
    time: 'time',
    pressure: (unit: string) => `pressure, ${unit}`,
    temperature: (unit: string) => `temperature, °${unit}`,
    stages: 'stages',
    conductivity: (unit: string) => `conductivity, ${unit}`,
  },
} as const
