import { parentPort } from 'node:worker_threads'
import { runTask } from './run-task.ts'
import type { AnswerMessage, TaskMessage } from './task.ts'

parentPort?.on('message', ({ number, task }: TaskMessage) => {
  // A thread has no origin to name.
  // oxlint-disable-next-line unicorn/require-post-message-target-origin
  parentPort?.postMessage(answerTo(number, task))
})

function answerTo(number: number, task: TaskMessage['task']): AnswerMessage {
  try {
    return { number, answer: runTask(task) }
  } catch (error) {
    return { number, failure: error instanceof Error ? (error.stack ?? error.message) : String(error) }
  }
}
