import { words } from './words/words.ts'

/** A part of the program could not be fetched: the network is away, or the service has a newer version by now. */
export class PartMissingError extends Error {
  override name = 'PartMissingError'
}

/** A network that was away for a moment is asked once more before anybody is told. */
const pauseMillis = 1500

/** Loads a part of the program that is not on this screen yet. Throws a PartMissingError when it cannot be fetched. */
export async function loadPart<Part>(load: () => Promise<Part>): Promise<Part> {
  try {
    return await load()
  } catch (error) {
    if (!isUnfetched(error)) throw error
  }
  await new Promise((resolve) => setTimeout(resolve, pauseMillis))
  try {
    return await load()
  } catch (error) {
    throw isUnfetched(error) ? new PartMissingError(words.problem.partMissing, { cause: error }) : error
  }
}

/** What browsers throw for a module that cannot be fetched, and the loader of the build for its styles. */
function isUnfetched(error: unknown): boolean {
  return error instanceof TypeError || (error instanceof Error && error.message.startsWith('Unable to preload'))
}
