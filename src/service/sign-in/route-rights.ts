import { Role } from '#road/people/entries.ts'
import { auditsAccess, comparesSites, identifiesPatients, namesCases } from '#road/people/rights.ts'

/**
 * What a route asks of who calls it.
 * - `open`: nothing; what it says is no secret, or it is the way in.
 * - `person`: to have signed in.
 * - `operate`: to be a program on the computer of the service, or to bring the token of its settings; no sign-in.
 * - `nameCase`, `identify`: to write down who a patient is, and to see, search or erase it.
 * - `read`, `record`, `manage`, `audit`: a role that has this right. What may be recorded goes by the kind of entry besides.
 */
export type Right =
  | 'open'
  | 'person'
  | 'operate'
  | 'read'
  | 'record'
  | 'manage'
  | 'audit'
  | 'compare'
  | 'nameCase'
  | 'identify'

export const rolesOfRights: Readonly<Record<Exclude<Right, 'open' | 'person' | 'operate'>, readonly Role[]>> =
  Object.freeze({
    read: Role.options,
    record: Role.options.filter((role) => role !== 'auditor'),
    manage: ['manager'],
    audit: auditsAccess,
    compare: comparesSites,
    nameCase: namesCases,
    identify: identifiesPatients,
  })

/** Every route of the API with its right: the list is the policy, and a route that it lacks cannot be added. */
export const routeRights: Readonly<Record<string, Right>> = Object.freeze({
  'GET /openapi.json': 'open',
  'GET /api/health': 'open',
  'GET /api/ready': 'open',
  'GET /api/metrics': 'operate',
  'GET /api/unit': 'open',
  'POST /api/unit': 'open',

  'GET /api/me': 'open',
  'POST /api/sign-in': 'open',
  'POST /api/sign-out': 'open',
  'POST /api/me/secrets': 'person',
  'POST /api/me/active': 'person',
  'POST /api/passkeys/challenge': 'open',
  'GET /api/me/passkeys': 'person',
  'POST /api/me/passkeys/challenge': 'person',
  'POST /api/me/passkeys': 'person',
  'DELETE /api/me/passkeys/:id': 'person',
  'GET /api/me/sessions': 'person',
  'POST /api/me/sessions/end': 'person',
  'POST /api/signatures': 'person',
  'GET /api/accounts': 'manage',
  'POST /api/accounts/:person/code': 'manage',
  'POST /api/accounts/:person/close': 'manage',
  'GET /api/devices': 'manage',
  'POST /api/devices': 'manage',
  'POST /api/devices/:id/end': 'manage',
  'GET /api/access': 'audit',

  'GET /api/cases/:case/identity': 'read',
  'PUT /api/cases/:case/identity': 'nameCase',
  'POST /api/cases/:case/identity/see': 'identify',
  'POST /api/cases/:case/identity/erase': 'identify',
  'POST /api/identities/search': 'identify',
  'GET /api/identities/log': 'audit',

  'GET /api/group': 'compare',

  'GET /api/seals': 'read',
  'POST /api/seals': 'manage',
  'POST /api/seals/check': 'read',
  'GET /api/backups': 'audit',
  'POST /api/backups': 'manage',

  'POST /api/entries': 'record',
  'POST /api/entries/judge': 'record',
  'GET /api/entries': 'read',
  'GET /api/entries/:id': 'read',
  'PUT /api/attachments': 'record',
  'GET /api/attachments/:digest': 'read',
  'POST /api/cycle-logs/read': 'read',
  'GET /api/loads/:load/chart': 'read',
  'POST /api/loads/:load/cycle': 'record',
  'GET /api/loads/:load/record.pdf': 'read',
  'GET /api/recalls/:recall/notice.pdf': 'read',
  'GET /api/devices/:device/step-card.pdf': 'read',
  'GET /api/months/:month/report.pdf': 'read',
  'GET /api/known': 'read',
  'GET /api/known/:subject': 'read',
  'GET /api/find': 'read',
  'GET /api/scan': 'read',
  'GET /api/label-printer': 'read',
  'GET /api/rounds/:round/label': 'read',
  'POST /api/rounds/:round/label/print': 'record',
  'GET /api/machines/:machine/loads': 'read',
  'GET /api/machines/:machine/connection': 'read',
  // It says to which folders and ports the service opens itself.
  'PUT /api/machines/:machine/connection': 'manage',
  'GET /api/machines/:machine/arrivals': 'read',
  'GET /api/machines/:machine/running': 'read',
  'POST /api/machines/:machine/practice': 'record',
  'GET /api/trace/:subject': 'read',
  'GET /api/recalls': 'read',
  'GET /api/recalls/:recall': 'read',
  'GET /api/wounds/calls': 'read',
  'GET /api/wounds/lines': 'read',
  'GET /api/wounds/rates': 'read',
  'GET /api/wounds/suspects': 'read',
  'GET /api/wounds/investigations/:investigation': 'read',
  'GET /api/wounds/charts/:chart': 'read',
  'GET /api/wounds/clusters': 'read',
  // A plan that is worked out is written nowhere; keeping one is an entry.
  'GET /api/plan/:day': 'read',
  'POST /api/plan/:day': 'read',
  'POST /api/plan/:day/simulate': 'read',
  'GET /api/live': 'read',

  'GET /api/tables': 'read',
  'GET /api/tables/:name': 'read',

  'GET /api/fhir': 'read',
  // What the service can do is no secret; what it holds is.
  'GET /fhir/R4/metadata': 'open',
  'GET /fhir/R4/:type': 'read',
  'GET /fhir/R4/:type/:id': 'read',

  'GET /api/webhooks': 'manage',
  'POST /api/webhooks': 'manage',
  'POST /api/webhooks/:id/end': 'manage',
  'POST /api/webhooks/:id/resume': 'manage',
  'POST /api/webhooks/:id/test': 'manage',

  'GET /api/list-import/mapping': 'read',
  'PUT /api/list-import/mapping': 'record',
  'POST /api/list-import/preview': 'record',
  'POST /api/list-import': 'record',

  'GET /api/policy': 'read',
  'GET /api/rules': 'read',
  'GET /api/kinds': 'read',
  'GET /api/workings': 'read',
  'GET /api/workings/:id': 'read',
  'POST /api/workings/:id': 'read',
  'GET /api/decide': 'read',
  'POST /api/decide': 'read',
})
