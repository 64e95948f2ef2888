/** Where a journal is kept. */
export type Place =
  | { readonly kind: 'sqlite'; readonly file: string }
  /** `schema` is the PostgreSQL schema that holds the tables; `nilgrowth` when it is not given. */
  | { readonly kind: 'postgres'; readonly url: string; readonly schema?: string }

/** Reads the place from the environment: DATABASE_URL, else NILGROWTH_DATA, else a file in the working folder. */
export function placeFromEnvironment(environment: Readonly<Record<string, string | undefined>>): Place {
  const { DATABASE_URL: url, NILGROWTH_DATA: file } = environment
  if (url !== undefined && url !== '') return { kind: 'postgres', url }
  return { kind: 'sqlite', file: file !== undefined && file !== '' ? file : './data/unit.sqlite' }
}
