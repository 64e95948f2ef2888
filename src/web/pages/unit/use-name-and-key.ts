import { useState } from 'react'
import { slug } from '../../make-key.ts'

/** The key follows the name until somebody writes one of their own, or begins with one that is there. */
export function useNameAndKey(firstName = '', firstKey: string | null = null) {
  const [name, onName] = useState(firstName)
  const [own, onKey] = useState<string | null>(firstKey)
  return { name, keyText: own ?? slug(name), onName, onKey }
}
