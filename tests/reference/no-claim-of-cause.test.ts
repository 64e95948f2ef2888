import assert from 'node:assert/strict'
import { globSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { test } from 'node:test'

/*
 * What goes with infection is an association. No word that a person reads of wounds, suspects or investigations says more.
 */

const root = join(import.meta.dirname, '../..')

/** Where people read of wounds: the words of the screens, findings and steps, the ranking, the command line, the demonstration. */
const read = [
  'src/web/words/en/{wounds,surveillance,risk}.ts',
  'src/web/pages/wounds/*',
  'src/road/wounds/**/*.ts',
  'src/road/tracing/{exposure-steps,decide-breach}.ts',
  'src/workings/statistics/exposure-ranking/*.ts',
  'src/workings/statistics/{attack-rate-table,westfall-young-minp,two-by-two-exact,cmh-exact}.ts',
  'src/service/wounds/*.ts',
  'src/cli/{wounds,suspect-text,wound-chart-rows}.ts',
  'src/demo/{investigation,wound-notes,watch-wounds,prevention}.ts',
]

const forbidden: readonly RegExp[] = [
  /\b(?:the|its|their|a|true|likely|probable|real) causes?\b/i,
  /\bcaus(?:ed|es|ing)\b/i,
  /\bculprit|\bguilt|\bto blame\b|\bat fault\b/i,
  /\bis (?:the|a) source of\b|\bthe source of (?:the )?infection/i,
  /\bresponsible for\b/i,
  /\binfect(?:ions?|ed) (?:is|are|was|were)? ?(?:due to|because of|by) the\b/i,
  /\b(?:proves?|proven|proof) (?:that|of|it|the)\b/i,
  /\bdefinitely\b|\bwithout doubt\b|\bcertainly\b/i,
]
/** Denied, it is no claim: "not what causes it", "never a proof of". */
const denied = /\b(?:not|never|no|nor|cannot|nothing)\b[^.;:]{0,40}$/i

/** The claims in a text, each with its words. */
function claimsIn(text: string): readonly string[] {
  return forbidden.flatMap((claim) => {
    const found = claim.exec(text)
    return found === null || denied.test(text.slice(0, found.index)) ? [] : [found[0]]
  })
}

/** String and template literals of a source, its comments left aside. */
function literalsOf(source: string): readonly string[] {
  const token = /\/\*[\s\S]*?\*\/|\/\/[^\n]*|'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`(?:[^`\\]|\\.)*`/g
  return [...source.matchAll(token)].map(([text]) => text).filter((text) => !/^\/[/*]/.test(text))
}

const files = read
  .flatMap((pattern) => globSync(pattern, { cwd: root }))
  .filter((file) => !/\.(?:test|suite)\.ts$/.test(file))

test('the words of wounds are looked at', () => {
  assert.ok(files.length > 60, `${files.length} files`)
  const literals = files.flatMap((file) => literalsOf(readFileSync(join(root, file), 'utf8')))
  // What is known to be said must be among what is looked at.
  for (const known of ['An association is a question', 'look at water and baths first', 'State a hypothesis'])
    assert.ok(
      literals.some((text) => text.includes(known)),
      known,
    )
})

for (const file of files) {
  test(`${file} claims no cause`, () => {
    const claims = literalsOf(readFileSync(join(root, file), 'utf8')).flatMap((text) =>
      claimsIn(text).map((claim) => `"${claim}" in ${text}`),
    )
    assert.deepEqual(claims, [])
  })
}

const bad = [
  'Investigate the cause.',
  'The bath is the source of infection.',
  'The infections were caused by load a-0757.',
  'Washer 2 is the likely cause',
  'This proves that the water did it.',
  'The culprit is named first.',
  'The infected are due to the tap',
  'Washer 1 is at fault.',
]
for (const text of bad) test(`a claim is seen: ${text}`, () => assert.notDeepEqual(claimsIn(text), []))

const good = [
  'It finds what goes with infection, not what causes it.',
  'An association is never proof of a link.',
  'Infection goes with the load beyond chance.',
  'No cause is named.',
]
for (const text of good) test(`no claim is seen: ${text}`, () => assert.deepEqual(claimsIn(text), []))

test('comments are not words that people read', () => {
  assert.deepEqual(literalsOf("// the cause\nconst a = 'said' /* its cause */"), ["'said'"])
})
