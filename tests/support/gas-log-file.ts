import type { LogFile } from './steam-log-file.ts'

/** The file that an ethylene oxide steriliser writes of a sound cycle: 30 min of conditioning, 120 min of gas, 50 min of flushing. */
export function gasLogFile(name: string, startedAt: string): LogFile {
  const rows = Array.from({ length: 201 }, (_, minute) => {
    const stage = minute < 30 ? 'conditioning' : minute <= 150 ? 'exposure' : 'flushing'
    const gas = stage === 'exposure' ? 650 + 4 * Math.sin(minute) : 0.4
    return [
      new Date(Date.parse(startedAt) + minute * 60_000).toISOString(),
      gas.toFixed(1),
      (54.5 + 0.4 * Math.sin(minute / 3)).toFixed(2),
      (58 + 2 * Math.sin(minute / 5)).toFixed(1),
      stage,
    ].join(',')
  })
  return { name, text: ['time,gas mg/L,temp °C,humidity %,stage', ...rows].join('\n'), minutes: 200 }
}
