/*
 * The browser's own database, with two stores: what the record answered last, and what is not sent yet. A call does one
 * thing in one transaction, and is done when that is.
 */

export type StoreName = 'answers' | 'outbox'

let opening: Promise<IDBDatabase> | undefined

function database(): Promise<IDBDatabase> {
  opening ??= new Promise<IDBDatabase>((resolve, reject) => {
    const request = indexedDB.open('nilgrowth', 1)
    request.addEventListener('upgradeneeded', () => {
      request.result.createObjectStore('answers', { keyPath: 'hash' })
      // What is entered first is sent first: the place is given by the database, and never twice.
      request.result.createObjectStore('outbox', { keyPath: 'place', autoIncrement: true })
    })
    request.addEventListener('success', () => {
      request.result.addEventListener('versionchange', () => request.result.close())
      resolve(request.result)
    })
    request.addEventListener('error', () => reject(request.error ?? new Error('no database')))
  })
  // A browser that has just been refused may be asked again.
  opening.catch(() => (opening = undefined))
  return opening
}

export async function readStore<Value>(name: StoreName, ask: (store: IDBObjectStore) => IDBRequest<Value>) {
  return await inTransaction(name, 'readonly', ask)
}

export async function writeStore<Value>(name: StoreName, ask: (store: IDBObjectStore) => IDBRequest<Value>) {
  return await inTransaction(name, 'readwrite', ask)
}

async function inTransaction<Value>(
  name: StoreName,
  mode: IDBTransactionMode,
  ask: (store: IDBObjectStore) => IDBRequest<Value>,
): Promise<Value> {
  const open = await database()
  return await new Promise<Value>((resolve, reject) => {
    // What the record answered can be asked again; what was entered cannot.
    const transaction = open.transaction(name, mode, { durability: name === 'outbox' ? 'strict' : 'relaxed' })
    const request = ask(transaction.objectStore(name))
    transaction.addEventListener('complete', () => resolve(request.result))
    transaction.addEventListener('abort', () => reject(transaction.error ?? request.error ?? new Error('aborted')))
  })
}
