import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { entriesPage, limitsPage, rulesPage } from '#road/reference-pages.ts'
import { type CommandIo, exit } from './command.ts'
import { commands } from './commands.ts'
import { apiPages } from './docs-api.ts'
import { commandsPage } from './docs-commands.ts'
import { decisionPages } from './docs-decisions.ts'
import { rightsPages } from './docs-rights.ts'
import { workingPages } from './docs-workings.ts'

/** One part of the reference: a folder under docs/reference that holds these pages and nothing else. */
interface Generator {
  readonly folder: string
  /** File name to text. */
  readonly pages: () => ReadonlyMap<string, string> | Promise<ReadonlyMap<string, string>>
}

const generators: readonly Generator[] = Object.freeze([
  { folder: 'workings', pages: workingPages },
  {
    folder: 'road',
    pages: () =>
      new Map([
        ['rules.md', rulesPage()],
        ['limits.md', limitsPage()],
        ['entries.md', entriesPage()],
      ]),
  },
  { folder: 'decisions', pages: decisionPages },
  { folder: 'api', pages: apiPages },
  { folder: 'rights', pages: rightsPages },
  { folder: 'commands', pages: () => new Map([['README.md', commandsPage(commands)]]) },
])

const referenceFolder = join(import.meta.dirname, '../../docs/reference')

/** `docs` writes the reference pages; `docs --check` gives exit 1 and names the pages that are not current. */
export async function runDocs(args: string[], io: CommandIo): Promise<number> {
  const check = args.length === 1 && args[0] === '--check'
  if (args.length > 0 && !check) {
    await io.stderr.write(`arguments: wanted docs [--check], current value is ${JSON.stringify(args.join(' '))}\n`)
    return exit.unusableInput
  }
  return check ? checkPages(referenceFolder, io) : writePages(referenceFolder, io)
}

/** Compares the pages in `root` with what they would be now; an extra page is a difference too. */
export async function checkPages(root: string, io: CommandIo): Promise<number> {
  const wanted = await wantedPages()
  const present = await presentPages(root)
  const names = new Set([...wanted.keys(), ...present.keys()])
  const stale = [...names].filter((name) => wanted.get(name) !== present.get(name)).toSorted()
  for (const name of stale) await io.stderr.write(`docs/reference/${name} is not current: run "nilgrowth docs"\n`)
  return stale.length === 0 ? exit.ok : exit.failed
}

/** Makes the pages in `root` exactly what the generators say. */
export async function writePages(root: string, io: CommandIo): Promise<number> {
  const wanted = await wantedPages()
  for (const name of (await presentPages(root)).keys()) if (!wanted.has(name)) await rm(join(root, name))
  for (const [name, text] of wanted) {
    await mkdir(dirname(join(root, name)), { recursive: true })
    await writeFile(join(root, name), text)
  }
  await io.stdout.write(`${wanted.size} pages written to docs/reference\n`)
  return exit.ok
}

async function wantedPages(): Promise<ReadonlyMap<string, string>> {
  const wanted = new Map<string, string>()
  for (const { folder, pages } of generators) {
    for (const [file, text] of await pages()) wanted.set(`${folder}/${file}`, text)
  }
  return wanted
}

async function presentPages(root: string): Promise<ReadonlyMap<string, string>> {
  const found = new Map<string, string>()
  for (const { folder } of generators) {
    for (const file of await filesIn(join(root, folder))) {
      found.set(`${folder}/${file}`, await readFile(join(root, folder, file), 'utf8'))
    }
  }
  return found
}

/** A folder that is not there yet holds no page. */
async function filesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder)
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return []
    throw error
  }
}
