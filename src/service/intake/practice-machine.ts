import { connect, type Socket } from 'node:net'
import { setTimeout as sleep } from 'node:timers/promises'
import type { SubjectId } from '#road/subject.ts'
import { diceOf } from '#demo/dice.ts'
import { airLeftCycle, shortHoldCycle, soundCycle, steamLogText } from '#demo/steam-log.ts'
import type { PracticeFault, PracticeState } from '../machine-answers.ts'

type Machine = SubjectId<'machine'>

export interface PracticeWanted {
  readonly machine: Machine
  readonly port: number
  readonly seed: number
  readonly speed: number
  readonly fault: PracticeFault
}

/** A machine that is simulated and prints to the same listener as any other, over the loopback. */
export interface PracticeMachines {
  /** Gives false while the machine prints already. */
  readonly begin: (wanted: PracticeWanted) => boolean
  readonly of: (machine: Machine) => PracticeState | null
  readonly close: () => Promise<void>
}

const shapes = { none: soundCycle, airLeft: airLeftCycle, shortHold: shortHoldCycle } as const

export function practiceMachines(log: (line: string) => void): PracticeMachines {
  const printing = new Map<Machine, { readonly state: PracticeState; readonly done: Promise<void> }>()
  const ending = new AbortController()
  return {
    begin(wanted) {
      const { machine, speed, fault, seed } = wanted
      if (printing.has(machine) || ending.signal.aborted) return false
      const { text, seconds } = steamLogText(diceOf(seed)('practice'), shapes[fault])
      const done = print(text, wanted, ending.signal)
        .catch((error: unknown) => {
          if (!ending.signal.aborted) log(`practice machine ${machine}: ${String(error)}`)
        })
        .finally(() => printing.delete(machine))
      printing.set(machine, { state: { speed, fault, seed, seconds }, done })
      return true
    },
    of: (machine) => printing.get(machine)?.state ?? null,
    async close() {
      ending.abort()
      await Promise.all([...printing.values()].map(({ done }) => done))
    },
  }
}

/** Prints each line when its time has come, by the first column, which counts seconds; the head at once. */
async function print(text: string, { port, speed }: PracticeWanted, signal: AbortSignal): Promise<void> {
  const socket = await dial(port)
  const began = performance.now()
  try {
    for (const line of text.trimEnd().split('\n')) {
      const second = Number(line.split(',')[0])
      const wait = Number.isNaN(second) ? 0 : (second / speed) * 1000 - (performance.now() - began)
      // A machine prints one line after the other.
      // oxlint-disable-next-line no-await-in-loop
      if (wait > 0) await sleep(wait, undefined, { signal })
      socket.write(`${line}\r\n`)
    }
    socket.write('CYCLE END\r\n')
  } finally {
    socket.end()
  }
}

function dial(port: number): Promise<Socket> {
  return new Promise((resolve, reject) => {
    const socket = connect(port, '127.0.0.1', () => resolve(socket))
    socket.on('error', reject)
  })
}
