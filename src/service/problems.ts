import { describeProblem, type Problem } from '#units/problem.ts'
import { type Finding, stands } from '#road/finding.ts'
import type { KeptEntry } from '#road/entry.ts'
import type { ApiProblem } from './api-types.ts'

/*
 * Every way in which the service says no, each with what to do now. `type` names the kind of problem
 * for programs; it is relative to the service and needs not be fetched.
 */

type Plain = Omit<ApiProblem, 'type' | 'detail' | 'findings'> & { readonly detail?: string }

export function problem(name: string, { detail, ...rest }: Plain): ApiProblem {
  return {
    type: `/problems/${name}`,
    detail: detail ?? rest.problems?.map(describeProblem).join('; ') ?? rest.title,
    ...rest,
  }
}

export function unusableInput(problems: readonly Problem[]): ApiProblem {
  return problem('unusable-input', {
    title: 'The input cannot be used',
    status: 422,
    remedy: 'Correct the fields named and send it again. Nothing was written.',
    problems,
  })
}

export function notJson(reason: string): ApiProblem {
  return problem('not-json', {
    title: 'The body is not JSON',
    status: 400,
    remedy: 'Send one JSON value, in UTF-8. Nothing was written.',
    problems: [{ field: 'body', wanted: 'JSON', current: reason }],
  })
}

export function brokenRequest(reason: string): ApiProblem {
  return problem('broken-request', {
    title: 'The request cannot be read',
    status: 400,
    remedy: 'Send a well-formed HTTP request. Nothing was written.',
    problems: [{ field: 'request', wanted: 'a well-formed HTTP request', current: reason }],
  })
}

export function tooLarge(limitBytes: number, came: string): ApiProblem {
  return problem('too-large', {
    title: 'The body is too large',
    status: 413,
    remedy: 'Send it in smaller parts. Nothing was written.',
    problems: [{ field: 'body', wanted: `at most ${limitBytes} bytes`, current: came }],
  })
}

export function wrongMediaType(wanted: string, came: string): ApiProblem {
  return problem('wrong-media-type', {
    title: 'The media type is not taken here',
    status: 415,
    remedy: `Send it with Content-Type: ${wanted}. Nothing was written.`,
    problems: [{ field: 'Content-Type', wanted, current: came }],
  })
}

export function compressedBody(coding: string): ApiProblem {
  return problem('compressed-body', {
    title: 'A compressed body is not taken',
    status: 415,
    remedy: 'Send it as it is, without Content-Encoding. Nothing was written.',
    problems: [{ field: 'Content-Encoding', wanted: 'none', current: JSON.stringify(shortened(coding)) }],
  })
}

export function noSuchRoute(method: string, path: string): ApiProblem {
  return problem('no-such-route', {
    title: 'There is nothing at this address',
    status: 404,
    remedy: 'Look up the addresses in /openapi.json.',
    problems: [{ field: 'address', wanted: 'an address of /openapi.json', current: `${method} ${shortened(path)}` }],
  })
}

export function wrongMethod(allowed: readonly string[], method: string): ApiProblem {
  return problem('wrong-method', {
    title: 'This address does not take that method',
    status: 405,
    remedy: `Use ${allowed.join(' or ')}. Nothing was written.`,
    problems: [{ field: 'method', wanted: allowed.join(' or '), current: method }],
  })
}

export function foreignPage(origin: string): ApiProblem {
  return problem('foreign-page', {
    title: 'A page of another site may not ask this service',
    status: 403,
    remedy: 'Open the program at its own address and do it there. Nothing was written.',
    problems: [{ field: 'Origin', wanted: 'the address of this service', current: JSON.stringify(shortened(origin)) }],
  })
}

/** RFC 9112, 3.2: a request without exactly one usable Host is answered with 400. */
export function unclearHost(hosts: readonly string[]): ApiProblem {
  return problem('unclear-host', {
    title: 'The request does not say clearly which service it is for',
    status: 400,
    remedy: 'Send exactly one Host header: the name and port at which the program is open. Nothing was written.',
    problems: [
      {
        field: 'Host',
        wanted: 'one header, such as localhost:4640',
        current: hosts.length === 0 ? 'missing' : hosts.map((host) => JSON.stringify(shortened(host))).join(' and '),
      },
    ],
  })
}

/** The name of another site was made to lead to this computer, so the browser takes its page for one of ours. */
export function foreignHost(host: string): ApiProblem {
  return problem('foreign-host', {
    title: 'This service is not known by that name',
    status: 400,
    remedy:
      'Open the program at http://localhost, on the computer that it runs on. To reach it by another name, set HOST. Nothing was written.',
    problems: [{ field: 'Host', wanted: 'localhost', current: JSON.stringify(shortened(host)) }],
  })
}

/** The same words whatever was wrong: who guesses learns neither a name nor a lock from them. */
export function notSignedIn(): ApiProblem {
  return problem('not-signed-in', {
    title: 'Sign in first',
    status: 401,
    detail: 'Nobody is signed in here, or the time without doing anything has run out.',
    remedy: 'Sign in and send it again. Nothing was written.',
  })
}

export function wrongSecret(lockMinutes: number): ApiProblem {
  return problem('wrong-secret', {
    title: 'That is not right',
    status: 401,
    detail:
      'The name, badge or code does not go with the secret that came with it, or there were too many wrong tries.',
    remedy: `Try again; after several wrong tries wait ${lockMinutes} minutes. A manager can give a new one-time code.`,
  })
}

/** Told before the passphrase is looked at: at this browser it would not be enough. */
export function passkeyWanted(): ApiProblem {
  return problem('passkey-wanted', {
    title: 'Here the passphrase alone is not enough',
    status: 403,
    detail:
      'Wanted: a passkey, a one-time code, or a tablet that is enrolled; came: a passphrase from another browser.',
    remedy:
      'Sign in by passkey, or at a tablet of the unit. Whoever has no passkey yet asks a manager for a one-time code.',
  })
}

/** Told to whoever asks more than one person or program does who works here. */
export function tooManyRequests(seconds: number): ApiProblem {
  return problem('too-many-requests', {
    title: 'That was too much at once',
    status: 429,
    detail: `More came in one minute than is answered. Wanted: the next one in ${seconds} seconds.`,
    remedy: `Wait ${seconds} seconds and send it again. Nothing was written.`,
  })
}

export function notOperator(): ApiProblem {
  return problem('not-operator', {
    title: 'This is for who looks after the computer',
    status: 403,
    remedy: 'Ask from the computer of the service, or with the token of NILGROWTH_METRICS_TOKEN as a bearer token.',
  })
}

export function mayNot(wanted: string, current: string): ApiProblem {
  return problem('may-not', {
    title: 'This is not among the tasks of your roles',
    status: 403,
    remedy: 'Ask someone whose task it is, or have a manager change the roles. Nothing was written.',
    problems: [{ field: 'roles', wanted, current }],
  })
}

export function identitiesNotKept(): ApiProblem {
  return problem('identities-not-kept', {
    title: 'This unit does not keep who its patients are',
    status: 409,
    detail: 'A case is known by its number only. The limit keep-identities of the policy says so.',
    remedy: 'Leave the patient’s name out, or have a manager change the limit. Nothing was written.',
  })
}

export function identityUnreadable(): ApiProblem {
  return problem('identity-unreadable', {
    title: 'Who this patient is cannot be read',
    status: 409,
    detail: 'It was encrypted by another key than the one in use here, or it is damaged.',
    remedy: 'Put the key file back that was in use when it was written. Nothing was changed.',
  })
}

export function passkeyRefused(): ApiProblem {
  return problem('passkey-refused', {
    title: 'This passkey cannot be kept',
    status: 409,
    detail: 'It was not made for what was asked here in the last minutes, or it is kept already.',
    remedy: 'Begin anew, at the address by which this unit is always opened. Nothing was changed.',
  })
}

/** An entry in the name of somebody who did not sign in here when it was made. */
export function notYours(wanted: string, current: string): ApiProblem {
  return problem('not-yours', {
    title: 'This entry is in the name of another person',
    status: 403,
    remedy: 'Have that person sign in at this screen; then it is sent. Nothing was written.',
    problems: [{ field: 'by', wanted, current: JSON.stringify(current) }],
  })
}

/** `problems` names each signature: `author` or `second`. */
export function signatureNeeded(problems: readonly Problem[]): ApiProblem {
  return problem('signature-needed', {
    title: 'This has to be signed',
    status: 403,
    remedy:
      'Sign it with POST /api/signatures, by PIN at an enrolled tablet or by passphrase, and send it again. Nothing was written.',
    problems,
  })
}

export function alreadyPrinting(machine: string): ApiProblem {
  return problem('already-printing', {
    title: 'The simulated machine is printing a cycle',
    status: 409,
    remedy: 'Wait until its cycle is over, or take another machine. Nothing was written.',
    problems: [{ field: 'machine', wanted: 'a machine that prints nothing', current: JSON.stringify(machine) }],
  })
}

export function notFound(field: string, wanted: string, current: string): ApiProblem {
  return problem('not-found', {
    title: 'Nothing of that name is on record',
    status: 404,
    remedy: 'Check the name; look for it with /api/find.',
    problems: [{ field, wanted, current: JSON.stringify(shortened(current)) }],
  })
}

export function idTaken(kept: KeptEntry): ApiProblem {
  return problem('id-taken', {
    title: 'Another entry has this id',
    status: 409,
    remedy: 'Give the entry an id of its own and send it again. Nothing was written.',
    problems: [
      { field: 'id', wanted: 'an id that no other entry has', current: `the id of entry ${kept.seq} (${kept.kind})` },
    ],
  })
}

export function refused(findings: readonly Finding[]): ApiProblem {
  const against = findings.filter(stands)
  return {
    ...problem('refused', {
      title: 'The rules do not let this decision stand',
      status: 409,
      detail: against.map((finding) => finding.says).join(' '),
      remedy: 'Settle the findings, or have a person who may do so record an exception. Nothing was written.',
    }),
    findings,
  }
}

export function badgeTaken(): ApiProblem {
  return problem('badge-taken', {
    title: 'Another person has this badge',
    status: 409,
    remedy: 'Scan a badge of your own. Nothing was written.',
    problems: [{ field: 'badge', wanted: 'a badge that nobody else has', current: 'one that somebody has' }],
  })
}

/** Without this one nobody could let anybody in again, but at the computer itself. */
export function onlyManager(person: string): ApiProblem {
  return problem('only-manager', {
    title: 'Nobody else could manage who may sign in',
    status: 409,
    remedy:
      'Give another manager a one-time code first, and have them sign in. A passphrase of your own is changed under your name; who forgot it is given a code by nilgrowth access code, at the computer of the service. Nothing was changed.',
    problems: [
      { field: 'person', wanted: 'one beside whom another manager can sign in', current: JSON.stringify(person) },
    ],
  })
}

export function alreadySetUp(state: string): ApiProblem {
  return problem('already-set-up', {
    title: 'This unit is set up already',
    status: 409,
    remedy: 'Open it; for another unit start the service on another file (NILGROWTH_DATA).',
    problems: [{ field: 'unit', wanted: 'a record without entries', current: state }],
  })
}

export function noDemonstration(): ApiProblem {
  return problem('no-demonstration', {
    title: 'This installation has no demonstration unit',
    status: 501,
    remedy: 'Set up an empty unit.',
  })
}

export function nothingToSeal(): ApiProblem {
  return problem('nothing-to-seal', {
    title: 'The record holds no entry yet',
    status: 409,
    remedy: 'Seal it when something is recorded.',
  })
}

export function notSealed(says: string): ApiProblem {
  return problem('not-sealed', {
    title: 'The record was not sealed',
    status: 409,
    detail: says,
    remedy: 'Have the person who looks after the computer see to it: what the problem says is what to do.',
  })
}

export function noBackupFolder(): ApiProblem {
  return problem('no-backup-folder', {
    title: 'No folder for backups is set',
    status: 501,
    remedy: 'Start the service with NILGROWTH_BACKUP_FOLDER and NILGROWTH_BACKUP_KEY_FILE.',
  })
}

export function noGroup(): ApiProblem {
  return problem('no-group', {
    title: 'This site may compare no others',
    status: 501,
    remedy: 'Start the service of the group with NILGROWTH_GROUP and the names of the sites.',
  })
}

/** The disk or the database below: what is sent again later is kept once, by its id. */
export function recordTrouble(says: string): ApiProblem {
  return problem('record-trouble', {
    title: 'The record cannot be used at the moment',
    status: 503,
    detail: says,
    remedy: 'Have the person who looks after the computer see to it. What was sent and not answered may be sent again.',
  })
}

export function notReady(why: string): ApiProblem {
  return problem('not-ready', {
    title: 'Requests should go elsewhere now',
    status: 503,
    detail: `This service takes no new work: ${why}.`,
    remedy: 'Send it to another service of the same record, or wait until this one is started again.',
  })
}

export function tookTooLong(seconds: number): ApiProblem {
  return problem('took-too-long', {
    title: 'The calculation took too long and was stopped',
    // No failure of the service: the same is asked in vain of a quicker one.
    status: 422,
    remedy: `Ask for less: it must be done within ${seconds} seconds.`,
  })
}

export function tooManyStreams(most: number): ApiProblem {
  return problem('too-many-streams', {
    title: 'As many screens follow the record as may do so at once',
    status: 503,
    remedy: 'Close a screen that nobody looks at, or raise NILGROWTH_STREAMS_LIMIT. Everything else works without it.',
    problems: [{ field: 'open streams', wanted: `at most ${most}`, current: `${most} are open` }],
  })
}

/** A mistake of ours. What went wrong is in the log under the same id, and not in the answer. */
export function ourFailure(id: string): ApiProblem {
  return problem('our-failure', {
    title: 'Something failed in the program',
    status: 500,
    detail: `The failure has the number ${id}.`,
    remedy: `Try again; if it stays, report the number ${id}.`,
    instance: id,
  })
}

function shortened(text: string): string {
  return text.length > 80 ? `${text.slice(0, 79)}…` : text
}
