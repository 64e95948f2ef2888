/** The lines of a stream as they complete, numbered from 1, without their line ends. The last needs none. */
export async function* linesOf(
  stream: AsyncIterable<string | Uint8Array>,
): AsyncGenerator<{ readonly text: string; readonly number: number }> {
  const decoder = new TextDecoder()
  let number = 0
  let pending = ''
  for await (const chunk of stream) {
    const parts = (typeof chunk === 'string' ? chunk : decoder.decode(chunk, { stream: true })).split('\n')
    const unfinished = parts.pop() ?? ''
    for (const part of parts) {
      number += 1
      yield { text: pending + part, number }
      pending = ''
    }
    pending += unfinished
  }
  pending += decoder.decode()
  if (pending !== '') yield { text: pending, number: number + 1 }
}
