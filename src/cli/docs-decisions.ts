import { citeSource } from '#units/source.ts'
import type { Topic } from '#road/deciding/topic.ts'
import { topics } from '#road/deciding/topics.ts'
import { describeTopic } from '#service/describe-topic.ts'
import { fieldTables } from './docs-fields.ts'

const generatedNotice = '<!-- Made by `nilgrowth docs` from the topics. Change the topic, not this page. -->'

/** One page for each topic that can be decided without a record, and an index. */
export function decisionPages(): ReadonlyMap<string, string> {
  const pages = topics.map((topic) => [`${topic.topic}.md`, pageOf(topic)] as const)
  return new Map([['README.md', indexPage()], ...pages])
}

function indexPage(): string {
  const rows = topics.map(({ topic, title }) => `| [${topic}](${topic}.md) | ${title} |`)
  return page([
    '# Decisions',
    'Questions that can be put without a record: the known facts, and the decision asked. `nilgrowth decide CASE.json` reads ' +
      '`{"topic": "...", "given": {...}}`, or a list of them, and writes `{"topic", "decision", "findings", "sources"}` for each. ' +
      '`nilgrowth decide --batch` does the same line by line, `POST /api/decide` over HTTP. The findings come from the rules and ' +
      'limits by which entries on record are judged. An aid to trained staff: the maker’s instructions, local regulation and ' +
      'licensed practice decide.',
    ['| topic | what is decided |', '|---|---|', ...rows].join('\n'),
  ])
}

function pageOf(topic: Topic): string {
  const { title, decisions, given, sources, example } = describeTopic(topic)
  const rows = Object.entries(decisions).map(([decision, meaning]) => `| \`${decision}\` | ${meaning} |`)
  return page([
    `# ${title}`,
    `\`{"topic": "${topic.topic}", "given": {...}}\``,
    '## Given',
    fieldTables(given),
    '## Decisions',
    ['| decision | meaning |', '|---|---|', ...rows].join('\n'),
    '## Sources',
    sources.map((source) => `- ${citeSource(source)} [${source.status}]`).join('\n'),
    '## Worked case',
    'Given:',
    ['```json', JSON.stringify(example.given, null, 2), '```'].join('\n'),
    `Decision: \`${example.decision}\``,
  ])
}

function page(parts: readonly string[]): string {
  return `${[generatedNotice, ...parts].join('\n\n')}\n`
}
