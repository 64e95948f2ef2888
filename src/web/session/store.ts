/** A value outside React that components can follow. */
export interface Store<Value> {
  readonly get: () => Value
  readonly set: (value: Value) => void
  readonly subscribe: (listener: () => void) => () => void
}

export function makeStore<Value>(initial: Value): Store<Value> {
  let value = initial
  const listeners = new Set<() => void>()
  return {
    get: () => value,
    set(next) {
      value = next
      for (const listener of listeners) listener()
    },
    subscribe(listener) {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

/** A store that is kept in this browser. What cannot be read any more is left behind. */
export function makeKeptStore<Value>(key: string, fallback: Value): Store<Value> {
  const store = makeStore(read(key, fallback))
  addEventListener('storage', (event) => {
    if (event.key === key) store.set(read(key, fallback))
  })
  return {
    ...store,
    set(value) {
      localStorage.setItem(key, JSON.stringify(value))
      store.set(value)
    },
  }
}

function read<Value>(key: string, fallback: Value): Value {
  try {
    const text = localStorage.getItem(key)
    return text === null ? fallback : (JSON.parse(text) as Value)
  } catch {
    return fallback
  }
}
