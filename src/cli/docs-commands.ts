import type { Command } from './command.ts'

/** Every command, from the table that help shows. */
export function commandPages(commands: readonly Command[]): ReadonlyMap<string, string> {
  const rows = commands.map(({ name, summary }) => `| \`nilgrowth ${name}\` | ${summary} |`)
  return new Map([
    [
      'README.md',
      `# Commands

Written by \`nilgrowth docs\` from the table of commands. \`npm run nilgrowth -- COMMAND\` runs one; each says in one line what it
wants when it is called wrongly. Exit codes: 0 done, 1 failed or found something, 2 called wrongly.

| Command | What it does |
|---|---|
${rows.join('\n')}
`,
    ],
  ])
}
