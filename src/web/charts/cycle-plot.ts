import * as Plot from '@observablehq/plot'
import type { CycleChart } from '#service/api-types.ts'
import { words } from '../words/words.ts'

/** Temperature and pressure share the height of the picture; the right axis is the left one in other words. */
const topC = 150
const topKPa = 375
const lethalityShare = 0.45

interface Point {
  readonly x: number
  readonly y: number
}

/** Draws a cycle: temperature left, pressure right, phases behind, the holding time bracketed. */
export function drawCycle(chart: CycleChart, width: number): HTMLElement | SVGSVGElement {
  const narrow = width < 560
  const height = narrow ? 340 : 440
  const minutes = chart.seconds.map((seconds) => seconds / 60)
  const line = (values: readonly (number | null)[], scale: number): Point[] =>
    minutes.map((x, index) => ({ x, y: (values[index] ?? Number.NaN) * scale }))
  const f = largest(chart.lethalityMinutes)
  const lethality = line(chart.lethalityMinutes, f > 0 ? (topC * lethalityShare) / f : 0)
  return Plot.plot({
    width,
    height,
    marginLeft: 46,
    marginRight: 50,
    marginTop: 34,
    marginBottom: 40,
    style: { fontSize: '13px', background: 'transparent', fontFamily: 'inherit' },
    x: { label: words.machines.chart.minutes, domain: [0, minutes.at(-1) ?? 1] },
    y: { domain: [0, topC] },
    marks: [
      ...phaseMarks(chart, width, height),
      Plot.areaY(lethality, { x: 'x', y: 'y', fill: 'currentColor', fillOpacity: 0.13 }),
      Plot.line(line(chart.pressureKPa, topC / topKPa), {
        ...xy,
        stroke: 'currentColor',
        strokeDasharray: '7 4',
        strokeWidth: 1.4,
      }),
      Plot.line(line(chart.theoreticalC, 1), {
        ...xy,
        stroke: 'currentColor',
        strokeDasharray: '1.5 4',
        strokeWidth: 2.5,
        strokeLinecap: 'round',
      }),
      ...chart.channels.map((channel) =>
        Plot.line(line(channel.celsius, 1), {
          ...xy,
          stroke: 'var(--accent)',
          strokeWidth: channel.role === 'reference' ? 2.6 : 1.3,
          strokeOpacity: channel.role === 'reference' ? 1 : 0.75,
        }),
      ),
      ...bracket(chart),
      ...pinMarks(chart),
      Plot.gridY({ strokeOpacity: 0.08 }),
      Plot.axisY({
        anchor: 'left',
        label: narrow ? words.machines.chart.celsius : words.machines.chart.temperature,
        labelAnchor: 'top',
      }),
      Plot.axisY(
        pressureTicks.map((kPa) => (kPa * topC) / topKPa),
        {
          anchor: 'right',
          tickFormat: (y: number) => String(Math.round((y * topKPa) / topC)),
          label: narrow ? words.machines.chart.kilopascal : words.machines.chart.pressure,
          labelAnchor: 'top',
        },
      ),
    ],
  })
}

const xy = { x: 'x', y: 'y' } as const
const pressureTicks = [0, 100, 200, 300]

function phaseMarks(chart: CycleChart, width: number, height: number): Plot.Markish[] {
  const last = chart.seconds.at(-1) ?? 1
  const phases = chart.phases.map(({ phase, startSeconds, endSeconds }, index) => ({
    name: words.machines.phases[phase] ?? phase,
    x1: startSeconds / 60,
    x2: endSeconds / 60,
    middle: (startSeconds + endSeconds) / 120,
    shade: index % 2 === 0 ? 0.055 : 0,
    wide: ((endSeconds - startSeconds) / last) * width > 96,
  }))
  // The bracket names the holding time.
  const named = phases.filter((phase) => phase.name !== words.machines.phases['holding'])
  const level = named.filter((phase) => phase.wide)
  const upright = named.filter((phase) => !phase.wide)
  return [
    Plot.rect(phases, { x1: 'x1', x2: 'x2', y1: 0, y2: topC, fill: 'currentColor', fillOpacity: 'shade' }),
    Plot.ruleX(phases, { x: 'x1', stroke: 'currentColor', strokeOpacity: 0.25 }),
    Plot.text(level, { x: 'middle', frameAnchor: 'top', text: 'name', dy: 4, fill: 'currentColor', fontWeight: 600 }),
    Plot.text(upright, {
      x: 'middle',
      y: topC * 0.3,
      text: 'name',
      rotate: -90,
      fill: 'currentColor',
      fontWeight: 600,
      fontSize: height < 400 ? 11 : 13,
      stroke: 'var(--sheet)',
      strokeWidth: 4,
    }),
  ]
}

/** Numbered where they happened; what each says stands in the list under the chart. */
function pinMarks({ pins }: CycleChart): Plot.Markish[] {
  const marks = pins.map((pin, index) => ({
    x1: pin.fromSeconds / 60,
    x2: pin.toSeconds / 60,
    middle: (pin.fromSeconds + pin.toSeconds) / 120,
    number: String(index + 1),
    y: pinHeight - (index % pinRows) * pinStep,
  }))
  return [
    Plot.ruleX(marks, { x: 'middle', stroke: 'var(--alarm)', strokeWidth: 1.5, strokeDasharray: '2 3' }),
    Plot.ruleY(marks, { x1: 'x1', x2: 'x2', y: 'y', stroke: 'var(--alarm)', strokeWidth: 3 }),
    Plot.dot(marks, {
      x: 'middle',
      y: 'y',
      r: 11,
      symbol: 'square',
      fill: 'var(--sheet)',
      stroke: 'var(--alarm)',
      strokeWidth: 2,
    }),
    Plot.text(marks, { x: 'middle', y: 'y', text: 'number', fill: 'var(--alarm)', fontWeight: 700, fontSize: 13 }),
  ]
}

/** Pins that fall together stand under one another. */
const pinHeight = 30
const pinStep = 10
const pinRows = 3

function bracket({ plateau, phases }: CycleChart): Plot.Markish[] {
  const holding = phases.find((phase) => phase.phase === 'holding') ?? plateau
  if (holding === null) return []
  const x1 = holding.startSeconds / 60
  const x2 = holding.endSeconds / 60
  const y = 143
  const says = `${words.machines.chart.holding} ${Math.round(holding.endSeconds - holding.startSeconds)} s`
  return [
    Plot.ruleY([y], { x1, x2, stroke: 'currentColor', strokeWidth: 2.5 }),
    Plot.ruleX([x1, x2], { y1: y - 4, y2: y + 4, stroke: 'currentColor', strokeWidth: 2.5 }),
    Plot.text([says], {
      x: (x1 + x2) / 2,
      y: topC,
      dy: -18,
      text: (text: string) => text,
      fill: 'currentColor',
      fontWeight: 700,
    }),
  ]
}

export function largest(values: readonly (number | null)[]): number {
  return values.reduce<number>((most, value) => (value !== null && value > most ? value : most), 0)
}
