import { a0Seconds } from '#workings/physics/a0.ts'
import type { LogFile } from '../../support/steam-log-file.ts'

/**
 * A washer's log with two sensors and its stages: five minutes at 90 °C, or what is asked, on the colder one, then hot drying, which counts
 * for nothing. Five minutes at 90 °C are an A0 of 3000 s (ISO 15883-1).
 */
export function twoSensorWash(disinfectionC = 90): LogFile & { readonly a0: number } {
  const stages = [
    ['wash', 600, 55],
    ['disinfection', 300, disinfectionC],
    ['drying', 900, 105],
  ] as const
  const rows: { seconds: number; cold: number; warm: number; stage: string }[] = []
  let seconds = 0
  for (const [stage, lasts, celsius] of stages) {
    for (let at = 0; at < lasts; at += 10) {
      rows.push({ seconds, cold: celsius, warm: celsius + 3, stage })
      seconds += 10
    }
  }
  const lines = rows.map((row) => `${row.seconds},${row.warm.toFixed(1)},${row.cold.toFixed(1)},${row.stage}`)
  const counted = rows.filter(({ stage }) => stage !== 'drying')
  return {
    name: 'washer.csv',
    minutes: seconds / 60,
    text: `elapsed seconds,upper rack °C,lower rack °C,stage\n${lines.join('\n')}\n`,
    a0: Math.round(a0Seconds(counted.map(({ seconds: at, cold }) => ({ seconds: at, temperatureC: cold })))),
  }
}

/** Ethylene oxide for 100 min inside every window of the guideline: 450 to 1200 mg/L, 37 to 63 °C, 40 to 80 % humidity. */
export function gasLog(): LogFile {
  const rows = ['elapsed seconds,gas mg/L,temp °C,humidity %,state']
  for (let half = 0; half <= 320; half += 1) {
    const inside = half >= 60 && half <= 260
    const shake = 0.3 * Math.sin(half)
    rows.push(
      `${half * 30},${(inside ? 650 + 10 * shake : 0.4).toFixed(1)},${(54.5 + shake).toFixed(2)},${(58 + shake).toFixed(1)},run`,
    )
  }
  return { name: 'gas-0001.csv', text: rows.join('\n'), minutes: 160 }
}
