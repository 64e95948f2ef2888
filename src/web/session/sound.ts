/** Two falling tones, loud enough for a wet room; repeated until the returned function is called. */
export function sound(): () => void {
  const context = new AudioContext()
  // A browser keeps sound back until somebody has touched the page.
  const wake = () => void context.resume().catch(() => undefined)
  addEventListener('pointerdown', wake)
  addEventListener('keydown', wake)
  const ring = () => {
    tone(context, 880, 0)
    tone(context, 622, 0.25)
  }
  ring()
  const timer = setInterval(ring, 2000)
  return () => {
    clearInterval(timer)
    removeEventListener('pointerdown', wake)
    removeEventListener('keydown', wake)
    void context.close()
  }
}

function tone(context: AudioContext, hertz: number, after: number): void {
  const start = context.currentTime + after
  const oscillator = context.createOscillator()
  const gain = context.createGain()
  oscillator.frequency.value = hertz
  gain.gain.setValueAtTime(0.3, start)
  gain.gain.exponentialRampToValueAtTime(0.001, start + 0.22)
  oscillator.connect(gain).connect(context.destination)
  oscillator.start(start)
  oscillator.stop(start + 0.24)
}
