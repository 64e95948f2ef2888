import assert from 'node:assert/strict'
import type { SentEntry } from '#road/entry.ts'
import type { CookieBrowser } from './browser-cookies.ts'
import type { SignedUnit } from './signed-unit.ts'

interface IdentityPeople {
  readonly unit: SignedUnit
  readonly nurse: CookieBrowser
  readonly surgeon: CookieBrowser
  readonly auditor: CookieBrowser
}

/** Those who may write down, see and audit who a patient is, and one case booked, P-0001. */
export async function caseOfIdentities(unit: SignedUnit): Promise<IdentityPeople> {
  const nurse = await unit.person('Nora', ['theatre'])
  const surgeon = await unit.person('Sana', ['surgeonInCharge'])
  const auditor = await unit.person('Otto', ['auditor'])
  const booked = await nurse.ask('POST', '/api/entries', caseEntry(unit, 'c-1', 'P-0001'))
  assert.equal(booked.status, 201, JSON.stringify(booked.body))
  return { unit, nurse, surgeon, auditor }
}

/** A case that Nora books. */
export function caseEntry(unit: SignedUnit, key: string, patient: string): SentEntry {
  return unit.entry('nora', 'case-booked', {
    case: `case:${key}`,
    patient,
    procedure: 'Cholecystectomy',
    theatre: 'Theatre 1',
    surgeon: 'person:sana',
    plannedAt: unit.now(),
    implantPlanned: false,
  })
}

export async function keepsIdentities({ unit }: IdentityPeople): Promise<void> {
  const change = unit.entry('mira', 'limit-changed', {
    policy: 'policy:unit',
    limit: 'keep-identities',
    value: true,
    reason: 'Patients are called after the operation',
  })
  const changed = await unit.decide(change, 'Mira', 'Sana')
  assert.equal(changed.status, 201, JSON.stringify(changed.body))
}
