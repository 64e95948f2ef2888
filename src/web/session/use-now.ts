import { useEffect, useState } from 'react'

/** The time, told anew every so many seconds. */
export function useNow(everySeconds = 30): number {
  const [now, setNow] = useState(() => Date.now())
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), everySeconds * 1000)
    return () => clearInterval(timer)
  }, [everySeconds])
  return now
}
