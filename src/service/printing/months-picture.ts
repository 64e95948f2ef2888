/** A month of a chart: a share with its exact interval, or nothing where nothing can be said. */
export interface MonthShare {
  readonly month: string
  readonly count: number
  readonly of: number
  readonly interval: readonly [number, number] | null
}

const width = 510
const height = 150
const frame = { left: 40, right: width - 8, top: 12, bottom: height - 34 }
const ink = '#1d1b17'

/** Shares by month as points with their intervals, each with its figures beneath. A month of which nothing is known has no point. */
export function monthsPicture(months: readonly MonthShare[]): string {
  const most = months.reduce((high, { interval }) => Math.max(high, interval?.[1] ?? 0), 0.05)
  const top = [0.05, 0.1, 0.2, 0.3, 0.5, 1].find((each) => each >= most) ?? 1
  const y = (share: number): number => frame.bottom - (share / top) * (frame.bottom - frame.top)
  const step = (frame.right - frame.left) / Math.max(1, months.length)
  const levels = [0, top / 2, top].map(
    (share) =>
      `<line x1="${frame.left}" x2="${frame.right}" y1="${n(y(share))}" y2="${n(y(share))}" stroke="#d8d3c8" stroke-width="0.5"/>${text(frame.left - 4, y(share) + 3, `${n(share * 100)} %`, 'end')}`,
  )
  const points = months.map(({ month, count, of, interval }, place) => {
    const x = frame.left + step * (place + 0.5)
    const says = `${text(x, frame.bottom + 12, month, 'middle')}${text(x, frame.bottom + 23, of === 0 ? 'none' : `${count} of ${of}`, 'middle')}`
    if (interval === null || of === 0) return says
    const [low, high] = interval
    return `${says}<line x1="${n(x)}" x2="${n(x)}" y1="${n(y(low))}" y2="${n(y(high))}" stroke="${ink}" stroke-width="1.2"/><circle cx="${n(x)}" cy="${n(y(count / of))}" r="3.2" fill="${ink}"/>`
  })
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    ...levels,
    ...points,
    '</svg>',
  ].join('')
}

function text(x: number, y: number, says: string, anchor: 'middle' | 'end'): string {
  return `<text x="${n(x)}" y="${n(y)}" font-family="Roboto" font-size="7.5" fill="${ink}" text-anchor="${anchor}">${says}</text>`
}

function n(value: number): string {
  return value.toFixed(1)
}
