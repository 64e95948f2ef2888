import { parseSubject, type SubjectId } from '#road/subject.ts'
import { citeSource } from '#units/source.ts'
import { cardText } from '#road/catalogue/step-card.ts'
import { readRow } from '#service/known-row.ts'
import { readStepCard } from '#service/read-step-card.ts'
import { type CommandIo, exit } from './command.ts'
import { notKnown, refuse } from './known.ts'
import { onUnit, type UnitCall } from './on-unit.ts'

/** `step-card DEVICE`: the steps of one device from the catalogue, for one of its uses or the strictest, each with its source. */
export function runStepCard(args: string[], io: CommandIo): Promise<number> {
  return onUnit(
    {
      usage: 'step-card DEVICE [--use USE] [--json]',
      options: { use: 'text', json: 'yes' },
      mostWords: 1,
      makes: false,
      run,
    },
    args,
    io,
  )
}

async function run({ reader, words, flags }: UnitCall, io: CommandIo): Promise<number> {
  const [word = ''] = words
  const id = parseSubject(word.includes(':') ? word : `device:${word}`)
  if (id === undefined || !id.startsWith('device:'))
    return refuse(io, `subject: wanted device:KEY, current value is ${JSON.stringify(word)}`)
  const row = await readRow(reader, id as SubjectId<'device'>)
  if (row === undefined) return notKnown(io, id)
  const device = row.state
  const { use } = flags
  const uses = (device.uses ?? []).map((each) => each.use)
  if (typeof use === 'string' && !uses.includes(use)) {
    return refuse(
      io,
      `--use: wanted ${uses.length === 0 ? 'none, it has no uses on file' : uses.join(' or ')}; got ${use}`,
    )
  }
  const card = await readStepCard(reader, device, typeof use === 'string' ? use : undefined)
  if (flags['json'] === true) {
    await io.stdout.write(`${JSON.stringify({ device: id, ...card }, null, 2)}\n`)
    return exit.ok
  }
  await io.stdout.write(`${card.name}\n\n`)
  for (const line of card.lines) await io.stdout.write(`${line.step.padEnd(11)} ${cardText(line)}\n`)
  await io.stdout.write(
    `\n${card.unverified} lines rest on a source that nobody has confirmed. ${citeSource(makers)}\n`,
  )
  return exit.ok
}

const makers = {
  title: 'The instructions of the maker decide over each line',
  status: 'confirmed',
} as const
