import type { z } from 'zod'
import type { ThermalPoint } from './lethality-integral.ts'

/** Refuses samples that go back in time, naming the first one that does. Two at one time are a step, and allowed. */
export function refuseUnordered<Sample>(time: keyof Sample & string, read: (sample: Sample) => number) {
  return (samples: Sample[], context: z.core.$RefinementCtx<Sample[]>): void => {
    let latest = Number.NEGATIVE_INFINITY
    for (const [index, sample] of samples.entries()) {
      const now = read(sample)
      if (now < latest) {
        const message = `a time not before the sample above it, ${latest}`
        context.addIssue({ code: 'custom', path: [index, time], message, input: samples })
        return
      }
      latest = now
    }
  }
}

/** One sensor's log with the name people know it by. */
export interface Channel<Sample> {
  readonly name: string
  readonly samples: readonly Sample[]
}

interface LogInput<Sample> {
  readonly samples?: readonly Sample[] | undefined
  readonly channels?: readonly Channel<Sample>[] | undefined
}

/** A log is either one list of samples or several named channels, never both. */
export const oneLog = {
  holds: (input: LogInput<unknown>): boolean => (input.samples === undefined) !== (input.channels === undefined),
  says: { path: ['samples'], message: 'either samples or channels, one of the two' },
}

/** The channels of a log; a single list of samples is a channel by the name `samples`. */
export function channelsOf<Sample>(input: LogInput<Sample>): readonly Channel<Sample>[] {
  return input.channels ?? [{ name: 'samples', samples: input.samples ?? [] }]
}

/** The channel with the least lethality: no part of the load got less. */
export function coldestOf<Outcome extends { readonly value: number }>(
  outcomes: readonly Outcome[],
): Outcome | undefined {
  return outcomes.reduce<Outcome | undefined>(
    (coldest, outcome) => (coldest === undefined || outcome.value < coldest.value ? outcome : coldest),
    undefined,
  )
}

/** The log up to a moment, cut on the straight line between two readings; null keeps all of it. */
export function pointsUntil(points: readonly ThermalPoint[], until: number | null): readonly ThermalPoint[] {
  if (until === null) return points
  const kept = points.filter((point) => point.at <= until)
  const last = kept.at(-1)
  const next = points[kept.length]
  if (last === undefined || next === undefined) return kept
  const share = (until - last.at) / (next.at - last.at)
  return [...kept, { at: until, temperatureC: last.temperatureC + share * (next.temperatureC - last.temperatureC) }]
}
