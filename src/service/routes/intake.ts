import { z } from 'zod'
import { instant } from '#road/instant.ts'
import { methodOf } from '#road/sterilising/method-of.ts'
import { type SubjectId, subjectOf } from '#road/subject.ts'
import type { AddRoutes } from '../app-type.ts'
import type { ServiceContext } from '../context.ts'
import { notConnected, problemsOfConnection } from '../intake/connections.ts'
import { runningCycle } from '../intake/running-cycle.ts'
import {
  ArrivalsAnswer,
  ConnectionAnswer,
  ConnectionInput,
  PracticeInput,
  type RunningAnswer,
  RunningAnswerSchema,
} from '../machine-answers.ts'
import { sendProblem } from '../problem-reply.ts'
import { alreadyPrinting, notFound, notYours, unusableInput } from '../problems.ts'
import { answers } from '../schemas/answers.ts'

/** How machines are connected, what came from them by itself, and what they print just now. */
export const addIntakeRoutes: AddRoutes = (app, context) => {
  const { reader, intake, now } = context
  const tags = ['machines']
  const params = z.strictObject({ machine: subjectOf('machine') })
  const machineOf = async (id: SubjectId<'machine'>) => (await reader.known([id])).get(id)
  const unknown = (id: string) => notFound('machine', 'a machine that is known', id)

  app.get(
    '/api/machines/:machine/connection',
    {
      schema: {
        tags,
        summary: 'Where the logs of a machine come from by themselves, and how that goes',
        params,
        response: answers({ schema: ConnectionAnswer, description: 'Folder and line; both null is off' }, 404, 422),
      },
    },
    async (request, reply) => {
      const { machine } = request.params
      if ((await machineOf(machine)) === undefined) return sendProblem(reply, unknown(machine))
      return await connectionOf(context, machine)
    },
  )

  app.put(
    '/api/machines/:machine/connection',
    {
      schema: {
        tags,
        summary: 'Connect a machine by a watched folder, by its printer line, by both or by none',
        description:
          'A folder lies under NILGROWTH_MACHINE_FOLDERS, an address is one of NILGROWTH_MACHINE_LISTEN: what the service was not configured for is refused.',
        params,
        body: ConnectionInput,
        response: answers({ schema: ConnectionAnswer, description: 'As it is now' }, 400, 404, 413, 415, 422),
      },
    },
    async (request, reply) => {
      const { machine } = request.params
      const { by, connection } = request.body
      const { who } = request
      if (who.kind === 'person' && who.person !== by) {
        return sendProblem(reply, notYours(`"${who.person}", who is signed in`, by))
      }
      const known = await machineOf(machine)
      if (known === undefined) return sendProblem(reply, unknown(machine))
      const others = await intake.connections.all()
      const problems = problemsOfConnection({ machine: known, connection, others, settings: intake.settings })
      if (problems.length > 0) return sendProblem(reply, unusableInput(problems))
      await intake.connections.set({ machine, connection, changedBy: by, changedAt: now() })
      await intake.look()
      return await connectionOf(context, machine)
    },
  )

  app.get(
    '/api/machines/:machine/arrivals',
    {
      schema: {
        tags,
        summary: 'The logs that came from a machine by themselves, the newest first',
        description:
          'Each with the loads that it was read for, and those that it may be of. None is attached by itself: POST /api/loads/:load/cycle with `arrived` does it.',
        params,
        response: answers({ schema: ArrivalsAnswer, description: 'Arrived logs' }, 404, 422),
      },
    },
    async (request, reply) => {
      const { machine } = request.params
      if ((await machineOf(machine)) === undefined) return sendProblem(reply, unknown(machine))
      return { arrivals: await intake.arrivals.rows(machine) } satisfies ArrivalsAnswer
    },
  )

  app.get(
    '/api/machines/:machine/running',
    {
      schema: {
        tags,
        summary: 'The cycle that a machine prints just now, as far as it goes',
        description:
          'Nothing in it is a verdict: a cycle that is not over is not evaluable. The event "running" of GET /api/live tells when more was printed.',
        params,
        response: answers({ schema: RunningAnswerSchema, description: 'Curves and figures so far' }, 404, 422, 503),
      },
    },
    async (request, reply) => {
      const { machine } = request.params
      if ((await machineOf(machine)) === undefined) return sendProblem(reply, unknown(machine))
      const running = await runningCycle(context, machine, intake.running(machine))
      return { ...running, practice: intake.practice.of(machine) } satisfies RunningAnswer
    },
  )

  app.post(
    '/api/machines/:machine/practice',
    {
      schema: {
        tags,
        summary: 'Let a simulated steam steriliser print a cycle, in a demonstration only',
        description:
          'It prints over the loopback to the same listener as a real one, at `speed` times the true speed, with the fault that is asked for. The same seed prints the same cycle.',
        params,
        body: PracticeInput,
        response: answers(
          { schema: RunningAnswerSchema, description: 'It prints', status: 202 },
          400,
          404,
          409,
          413,
          415,
          422,
        ),
      },
    },
    async (request, reply) => {
      const { machine } = request.params
      const known = await machineOf(machine)
      if (known === undefined) return sendProblem(reply, unknown(machine))
      const [unit] = await reader.standing('unit', ['open'])
      const wrong =
        unit?.demonstration !== true
          ? { field: 'unit', wanted: 'a demonstration', current: 'a record of its own' }
          : methodOf(known) === 'steam'
            ? undefined
            : { field: 'machine', wanted: 'a steam steriliser', current: `"${known.type}"` }
      if (wrong !== undefined) return sendProblem(reply, unusableInput([wrong]))
      if (!(await intake.practise({ ...request.body, machine }))) return sendProblem(reply, alreadyPrinting(machine))
      const practice = intake.practice.of(machine)
      return reply.code(202).send({ machine, running: null, practice } satisfies RunningAnswer)
    },
  )
}

async function connectionOf({ intake }: ServiceContext, machine: SubjectId<'machine'>): Promise<ConnectionAnswer> {
  const kept = await intake.connections.of(machine)
  const says = intake.says(machine)
  return {
    machine,
    connection: kept?.connection ?? notConnected,
    changedBy: kept?.changedBy ?? null,
    changedAt: kept === undefined ? null : instant(Date.parse(kept.changedAt)),
    folderRoot: intake.settings.folderRoot,
    addresses: [...intake.settings.addresses],
    folderSays: says.folder,
    lineSays: says.line,
  }
}
