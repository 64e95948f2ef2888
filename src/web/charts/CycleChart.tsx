import { useEffect, useRef } from 'react'
import { useElementSize } from '@mantine/hooks'
import type { CycleChart as Chart } from '#service/api-types.ts'
import { words } from '../words/words.ts'
import { ChartFrame } from './ChartFrame.tsx'
import { GasChart } from './GasChart.tsx'
import { drawCycle, largest } from './cycle-plot.ts'

interface Props {
  readonly chart: Chart
  readonly name: string
}

/** The cycle as a picture, with its keys, in words for who cannot see it, and as data. */
export function CycleChart({ chart, name }: Props) {
  const { gas } = chart
  return gas === undefined ? (
    <SteamChart chart={chart} name={name} />
  ) : (
    <GasChart chart={{ ...chart, gas }} name={name} />
  )
}

function SteamChart({ chart, name }: Props) {
  const { ref, width } = useElementSize()
  const holder = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (width < 1) return
    const drawn = drawCycle(chart, Math.max(width, 340))
    drawn.setAttribute('role', 'img')
    drawn.setAttribute('aria-label', inWords(chart))
    // The picture has one name; what it is drawn of needs none.
    for (const part of drawn.querySelectorAll('g[aria-label]')) part.removeAttribute('aria-label')
    holder.current?.replaceChildren(drawn)
  }, [chart, width])
  return (
    <ChartFrame name={`cycle-${name}`} label={words.machines.chart.label(name)} data={() => rowsOf(chart)}>
      <div ref={ref}>
        <div ref={holder} />
      </div>
      <Keys chart={chart} />
      <Pins chart={chart} />
    </ChartFrame>
  )
}

function Pins({ chart }: { readonly chart: Chart }) {
  if (chart.pins.length === 0) return null
  return (
    <ol className="pins" aria-label={words.machines.chart.pins}>
      {chart.pins.map((pin) => (
        <li key={`${pin.fromSeconds} ${pin.says}`}>{words.machines.chart.pinned(pin.fromSeconds / 60, pin.says)}</li>
      ))}
    </ol>
  )
}

function Keys({ chart }: { readonly chart: Chart }) {
  const w = words.machines.chart
  const f = largest(chart.lethalityMinutes)
  return (
    <ul className="keys">
      {chart.channels.map((channel) => (
        <li key={channel.name}>
          <Sample stroke="var(--accent)" width={channel.role === 'reference' ? 2.6 : 1.3} />
          {channel.name}
        </li>
      ))}
      <li>
        <Sample stroke="currentColor" width={2.5} dash="1.5 4" />
        {w.theoretical}
      </li>
      <li>
        <Sample stroke="currentColor" width={1.4} dash="7 4" />
        {w.pressureShort}
      </li>
      <li>
        <svg width="34" height="14" aria-hidden="true">
          <rect width="34" height="14" fill="currentColor" fillOpacity="0.13" />
        </svg>
        {w.lethality}: {f.toFixed(1)}
      </li>
    </ul>
  )
}

function Sample({ stroke, width, dash }: { readonly stroke: string; readonly width: number; readonly dash?: string }) {
  return (
    <svg width="34" height="10" aria-hidden="true">
      <path d="M0 5H34" stroke={stroke} strokeWidth={width} strokeDasharray={dash} strokeLinecap="round" />
    </svg>
  )
}

function inWords(chart: Chart): string {
  const { says, range } = words.machines.chart
  const of = (name: string, values: readonly (number | null)[], unit: string) => {
    const read = values.filter((value) => value !== null)
    const low = Math.min(...read)
    return range(name, low.toFixed(0), `${largest(values).toFixed(1)} ${unit}`)
  }
  return says([
    ...chart.channels.map((channel) => of(channel.name, channel.celsius, '°C')),
    of(words.machines.chart.pressureShort, chart.pressureKPa, 'kPa'),
    ...chart.phases.map((phase) => words.machines.phases[phase.phase] ?? phase.phase),
  ])
}

function rowsOf(chart: Chart): (string | number | null)[][] {
  const head = [
    'seconds',
    ...chart.channels.map((channel) => `${channel.name} (°C)`),
    'pressure (kPa abs)',
    'theoretical (°C)',
    'F (min)',
  ]
  const rows = chart.seconds.map((seconds, index) => [
    seconds,
    ...chart.channels.map((channel) => channel.celsius[index] ?? null),
    chart.pressureKPa[index] ?? null,
    chart.theoreticalC[index] ?? null,
    chart.lethalityMinutes[index] ?? null,
  ])
  return [head, ...rows]
}
