import type { Step } from '#journal/migrations/step.ts'
import { lastFormat } from '#journal/migrations/format.ts'
import { steps } from '#journal/migrations/steps.ts'

/** A step as a later version might bring it: a new table, filled from the record. */
export const nextFormat = lastFormat(steps) + 1

const fill = "INSERT INTO shelf_mark SELECT id, 'from ' || kind FROM entry"

export const shelfStep: Step = {
  to: nextFormat,
  what: 'a table that only the tests have',
  statements: {
    sqlite: ['CREATE TABLE shelf_mark (id TEXT PRIMARY KEY, says TEXT NOT NULL) STRICT', fill],
    postgres: ['CREATE TABLE shelf_mark (id text PRIMARY KEY, says text NOT NULL)', fill],
  },
}

export const secondStep: Step = {
  to: nextFormat + 1,
  what: 'one more column of it',
  statements: {
    sqlite: ["ALTER TABLE shelf_mark ADD COLUMN colour TEXT NOT NULL DEFAULT 'grey'"],
    postgres: ["ALTER TABLE shelf_mark ADD COLUMN colour text NOT NULL DEFAULT 'grey'"],
  },
}

export const laterSteps: readonly Step[] = [...steps, shelfStep, secondStep]
