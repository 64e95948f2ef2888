import { citeSource } from '#units/source.ts'
import { workings } from '#workings/registry.ts'
import type { Working } from '#workings/working.ts'
import { fieldTables } from './docs-fields.ts'
import { describeWorking } from '#service/describe-working.ts'

const generatedNotice = '<!-- Made by `nilgrowth docs` from the registry. Change the working, not this page. -->'

/** One page for each working, and an index. */
export function workingPages(): ReadonlyMap<string, string> {
  const pages = workings.map((working) => [`${working.id}.md`, pageOf(working)] as const)
  return new Map([['README.md', indexPage()], ...pages])
}

function indexPage(): string {
  const rows = workings.map(({ id, title, group }) => `| [${id}](${id}.md) | ${title} | ${group} |`)
  return page([
    '# Workings',
    'Each is one pure calculation: `nilgrowth work ID` reads its input as JSON and writes its output as JSON, and ' +
      '`nilgrowth work --batch` does the same line by line.',
    ['| id | what | group |', '|---|---|---|', ...rows].join('\n'),
  ])
}

function pageOf(working: Working): string {
  const { id, title, method, validity, sources, input, output, example } = describeWorking(working)
  return page([
    `# ${title}`,
    `\`nilgrowth work ${id}\``,
    '## Method',
    method,
    '## Limits of validity',
    validity,
    '## Sources',
    sources.map((source) => `- ${citeSource(source)} [${source.status}]`).join('\n'),
    '## Input',
    fieldTables(input),
    '## Output',
    fieldTables(output),
    '## Worked example',
    'Input:',
    jsonBlock(example.input),
    'Output:',
    jsonBlock(example.output),
  ])
}

function page(parts: readonly string[]): string {
  return `${[generatedNotice, ...parts].join('\n\n')}\n`
}

function jsonBlock(value: unknown): string {
  return ['```json', JSON.stringify(value, null, 2), '```'].join('\n')
}
