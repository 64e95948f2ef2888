import { useEffect, useRef, useState } from 'react'
import { words } from '../words/words.ts'
import { Dialog } from './Dialog.tsx'

interface Props {
  readonly onCode: (code: string) => void
  readonly onClose: () => void
}

type Answer = { readonly code: string | null } | { readonly failed: string }

/** Shows what the camera sees until a code is read in it. No picture leaves this device or is kept. */
export function ScanCamera({ onCode, onClose }: Props) {
  const video = useRef<HTMLVideoElement>(null)
  const told = useRef(onCode)
  const [problem, setProblem] = useState<string>()
  const w = words.scan.camera
  useEffect(() => {
    told.current = onCode
  }, [onCode])
  useEffect(() => {
    const screen = video.current
    if (screen === null) return
    return watch(screen, { onCode: (code) => told.current(code), onProblem: setProblem })
  }, [])
  return (
    <Dialog title={w.title} onClose={onClose}>
      <video ref={video} muted playsInline aria-label={w.seen} style={{ width: '100%', background: '#000' }} />
      <p>{w.hold}</p>
      {problem !== undefined && (
        <p className="problem" role="alert">
          {problem}
        </p>
      )}
    </Dialog>
  )
}

interface Heard {
  readonly onCode: (code: string) => void
  readonly onProblem: (says: string) => void
}

/** Opens the camera and asks the reader for one picture after the other; what it gives back ends both. */
function watch(screen: HTMLVideoElement, { onCode, onProblem }: Heard): () => void {
  const reader = new Worker(new URL('./camera-worker.ts', import.meta.url), { type: 'module' })
  const board = document.createElement('canvas').getContext('2d', { willReadFrequently: true })
  let stream: MediaStream | undefined
  let ended = false
  const end = () => {
    ended = true
    reader.terminate()
    for (const track of stream?.getTracks() ?? []) track.stop()
  }
  const ask = () => {
    if (ended || board === null) return
    const { videoWidth: width, videoHeight: height } = screen
    if (width === 0) return requestAnimationFrame(ask)
    board.canvas.width = width
    board.canvas.height = height
    board.drawImage(screen, 0, 0)
    const picture = board.getImageData(0, 0, width, height)
    reader.postMessage(picture, [picture.data.buffer])
  }
  reader.addEventListener('message', ({ data }: MessageEvent<Answer>) => {
    if (ended) return
    if ('failed' in data) return onProblem(`${words.scan.camera.unread} ${data.failed}`)
    if (data.code === null) return requestAnimationFrame(ask)
    end()
    onCode(data.code)
  })
  reader.addEventListener('error', () => onProblem(words.scan.camera.unread))
  navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment', width: { ideal: 1280 } } }).then(
    async (opened) => {
      stream = opened
      if (ended) return end()
      screen.srcObject = opened
      await screen.play()
      ask()
    },
    () => onProblem(words.scan.camera.notOpened),
  )
  return end
}
