import { Worker } from 'node:worker_threads'
import type { AnswerMessage, Task, TaskAnswer } from './task.ts'

/** Runs work that burns the processor away from the thread that answers requests. */
export interface Compute {
  /** `seconds` is the limit of this piece of work, where it is less than that of all. */
  run(task: Task, seconds?: number): Promise<TaskAnswer>
  close(): Promise<void>
}

/** The work went on for too long and was stopped. */
export class TookTooLong extends Error {
  readonly seconds: number

  constructor(seconds: number) {
    super(`stopped after ${seconds} s`)
    this.seconds = seconds
  }
}

export interface ComputeOptions {
  readonly workers: number
  readonly secondsAllowed: number
}

/** A few worker threads, each started when it is first needed, each doing one piece of work at a time. */
export function computeInWorkers({ workers, secondsAllowed }: ComputeOptions): Compute {
  const hands = Array.from({ length: workers }, () => new Hand())
  return {
    async run(task, seconds = secondsAllowed) {
      const [first, ...others] = hands
      if (first === undefined) throw new RangeError('workers must be at least 1')
      return await others
        .reduce((idlest, hand) => (hand.waiting < idlest.waiting ? hand : idlest), first)
        .run(task, Math.min(seconds, secondsAllowed))
    },
    close: async () => {
      await Promise.all(hands.map((hand) => hand.close()))
    },
  }
}

/** One worker thread and the queue in front of it. */
class Hand {
  #worker: Worker | undefined
  #queue: Promise<unknown> = Promise.resolve()
  #number = 0
  waiting = 0

  async run(task: Task, seconds: number): Promise<TaskAnswer> {
    this.waiting += 1
    const before = this.#queue
    const mine = before.then(() => this.#runNow(task, seconds))
    this.#queue = mine.catch(() => {})
    try {
      return await mine
    } finally {
      this.waiting -= 1
    }
  }

  async close(): Promise<void> {
    await this.#worker?.terminate()
    this.#worker = undefined
  }

  async #runNow(task: Task, seconds: number): Promise<TaskAnswer> {
    this.#worker ??= new Worker(new URL('./worker.ts', import.meta.url)).setMaxListeners(20)
    const worker = this.#worker
    // Referenced while it works, so that the process stays for its answer; not before, so that it can end.
    worker.ref()
    try {
      return await this.#ask(worker, task, seconds)
    } catch (error) {
      await this.close()
      throw error
    } finally {
      worker.unref()
    }
  }

  #ask(worker: Worker, task: Task, seconds: number): Promise<TaskAnswer> {
    this.#number += 1
    const number = this.#number
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => settle(() => reject(new TookTooLong(seconds))), seconds * 1000)
      const onMessage = (message: AnswerMessage): void => {
        if (message.number !== number) return
        settle(() => ('failure' in message ? reject(new Error(message.failure)) : resolve(message.answer)))
      }
      const onError = (error: unknown): void => settle(() => reject(error))
      const onExit = (): void => settle(() => reject(new Error('the worker thread ended')))
      const settle = (act: () => void): void => {
        clearTimeout(timer)
        worker.off('message', onMessage).off('error', onError).off('exit', onExit)
        act()
      }
      worker.on('message', onMessage).on('error', onError).on('exit', onExit)
      // A thread has no origin to name.
      // oxlint-disable-next-line unicorn/require-post-message-target-origin
      worker.postMessage({ number, task })
    })
  }
}
