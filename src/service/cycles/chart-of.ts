import type { SteamChart } from '#workings/steam/chart.ts'
import type { SteamCycleReading } from '#workings/steam/reading.ts'
import type { CycleChart } from '../api-types.ts'

type Series = SteamChart['series'][number]

/** The curves of a cycle as the screens draw them, with the phases that the reader found. */
export function chartOf({ seconds, series }: SteamChart, reading: SteamCycleReading): CycleChart {
  const valuesOf = (role: Series['role']) => series.find((line) => line.role === role)?.values ?? []
  return {
    seconds,
    pressureKPa: valuesOf('pressure'),
    theoreticalC: valuesOf('saturation'),
    lethalityMinutes: valuesOf('lethality'),
    channels: series.flatMap(channelOf),
    phases: reading.phases.map(({ id, startSeconds, endSeconds }) => ({ phase: id, startSeconds, endSeconds })),
    plateau: reading.plateau,
    pins: reading.pins,
  }
}

function channelOf({ name, role, values }: Series): CycleChart['channels'] {
  switch (role) {
    case 'reference':
    case 'load':
    case 'above':
      return [{ name, role, celsius: values }]
    case 'pressure':
    case 'saturation':
    case 'lethality':
      return []
  }
}
