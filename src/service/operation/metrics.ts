import type { AnsweredRequest } from './log.ts'

/** What the service counts of itself. */
export interface Metrics {
  readonly answered: (request: AnsweredRequest) => void
  /** The text of it, with what is measured at this moment. */
  readonly text: (now: readonly Gauge[]) => string
}

export interface Gauge {
  readonly name: string
  readonly help: string
  readonly value: number
  /** A number that only grows, as the seconds that a processor has worked. */
  readonly counts?: true
  readonly labels?: Readonly<Record<string, string>>
}

export const metricsMediaType = 'application/openmetrics-text; version=1.0.0; charset=utf-8'

/** Seconds; the last is that of a calculation that was stopped. */
const bounds = [0.01, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10, 60] as const

interface Times {
  readonly within: number[]
  count: number
  seconds: number
}

/** Counts by route and status alone: nothing of who asked, nor of what. The form is that of OpenMetrics 1.0. */
export function metrics(): Metrics {
  const requests = new Map<string, number>()
  const times = new Map<string, Times>()
  return {
    answered({ method, route, status, milliseconds }) {
      const which = labels({ method, route, status: String(status) })
      requests.set(which, (requests.get(which) ?? 0) + 1)
      const seconds = milliseconds / 1000
      const own = times.get(route) ?? { within: bounds.map(() => 0), count: 0, seconds: 0 }
      times.set(route, own)
      own.count += 1
      own.seconds += seconds
      for (const [place, bound] of bounds.entries())
        if (seconds <= bound) own.within[place] = (own.within[place] ?? 0) + 1
    },
    text: (now) =>
      [
        '# TYPE nilgrowth_requests counter',
        '# HELP nilgrowth_requests Requests that were answered.',
        ...[...requests].map(([which, count]) => `nilgrowth_requests_total${which} ${count}`),
        '# TYPE nilgrowth_request_seconds histogram',
        '# UNIT nilgrowth_request_seconds seconds',
        '# HELP nilgrowth_request_seconds How long an answer took.',
        ...[...times].flatMap(([route, own]) => histogram(route, own)),
        ...now.flatMap(gauge),
        '# EOF',
        '',
      ].join('\n'),
  }
}

function histogram(route: string, { within, count, seconds }: Times): readonly string[] {
  const name = 'nilgrowth_request_seconds'
  return [
    ...bounds.map((bound, place) => `${name}_bucket${labels({ route, le: bound.toFixed(2) })} ${within[place] ?? 0}`),
    `${name}_bucket${labels({ route, le: '+Inf' })} ${count}`,
    `${name}_count${labels({ route })} ${count}`,
    `${name}_sum${labels({ route })} ${seconds}`,
  ]
}

function gauge({ name, help, value, counts, labels: own = {} }: Gauge): readonly string[] {
  const type = counts === true ? 'counter' : 'gauge'
  const sample = counts === true ? `${name}_total` : name
  return [`# TYPE ${name} ${type}`, `# HELP ${name} ${help}`, `${sample}${labels(own)} ${value}`]
}

function labels(pairs: Readonly<Record<string, string>>): string {
  const said = Object.entries(pairs).map(([name, value]) => `${name}="${escaped(value)}"`)
  return said.length === 0 ? '' : `{${said.join(',')}}`
}

function escaped(value: string): string {
  return value.replaceAll('\\', '\\\\').replaceAll('"', '\\"').replaceAll('\n', '\\n')
}
