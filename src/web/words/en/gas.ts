import type { aerationPlaces, cancelCauses } from '#road/gases/entries.ts'

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

/** Words of loads that gas or dry heat sterilises. */
export const gasWords = {
  aeration: 'Aeration',
  held: 'This load is held until its aeration has ended.',
  nextCancelled: 'Reject every pack of this load, dry and pack again.',
  notStarted: 'The aeration has not begun. The load is not to be touched.',
  tooCold: 'No listed aeration is this cold: the load cannot be released from it.',
  done: (celsius: number, hours: number) => `Aerated for ${hours} h, never colder than ${celsius} °C.`,
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
    temperatures: 'Temperatures',
    humidity: 'Humidity, %',
    concentration: 'Gas, mg/L',
    stage: 'Stages of the machine, in words',
    understood: 'Read as',
    unread: 'not used',
    time: 'time',
    pressure: (unit: string) => `pressure, ${unit}`,
    temperature: (unit: string) => `temperature, °${unit}`,
    stages: 'stages',
  },
} as const
