import { parseSubject } from '#road/subject.ts'
import { type Trace, trace } from '#road/tracing/trace.ts'
import { type CommandIo, exit } from './command.ts'
import { notKnown, refuse } from './known.ts'
import { onUnit, textOf, type UnitCall } from './on-unit.ts'

const directions = ['back', 'forward', 'both'] as const

/** `trace SUBJECT [--direction back|forward|both] [--json]`: what hangs together with a subject. */
export function runTrace(args: string[], io: CommandIo): Promise<number> {
  const usage = 'trace SUBJECT [--direction back|forward|both] [--json]'
  const options = { direction: 'text', json: 'yes' } as const
  return onUnit({ usage, options, mostWords: 1, makes: false, run: show }, args, io)
}

async function show({ reader, words, flags }: UnitCall, io: CommandIo): Promise<number> {
  const [word = ''] = words
  const subject = parseSubject(word)
  if (subject === undefined) return refuse(io, `subject: wanted KIND:KEY, current value is ${JSON.stringify(word)}`)
  const asked = textOf(flags['direction']) ?? 'both'
  const direction = directions.find((each) => each === asked)
  if (direction === undefined) {
    return refuse(io, `--direction: wanted one of ${directions.join(', ')}, current value is ${JSON.stringify(asked)}`)
  }
  if (!(await reader.known([subject])).has(subject)) return notKnown(io, subject)
  const traced = await trace(reader, subject, direction)
  await io.stdout.write(flags['json'] === true ? `${JSON.stringify(traced, null, 2)}\n` : asText(traced))
  return exit.ok
}

/** From the furthest cause to the furthest consequence. */
function asText({ nodes, more }: Trace): string {
  const lines = nodes
    .toSorted((a, b) => a.distance - b.distance)
    .map(
      ({ distance, subject, standing, title, at }) =>
        `${distance}\t${subject}\t${standing ?? '-'}\t${at ?? '-'}\t${title}`,
    )
  const left = more.map((subject) => `more than is shown hangs on ${subject}`)
  return `${[...lines, ...left].join('\n')}\n`
}
