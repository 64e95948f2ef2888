import { entryKinds } from '#road/kinds.ts'
import { Role } from '#road/people/entries.ts'
import { rightsOfKinds, secondRoles } from '#road/people/rights.ts'
import { signaturesAsked } from '#road/people/signatures-asked.ts'
import { policyFrom } from '#road/policy.ts'
import { rolesOfRights, routeRights } from '#service/sign-in/route-rights.ts'

/** Who may record what and ask what, from the lists that the service goes by. */
export function rightsPages(): ReadonlyMap<string, string> {
  return new Map([['README.md', rightsPage()]])
}

const delivered = policyFrom(undefined)

function rightsPage(): string {
  const kinds = entryKinds.map(({ kind, nature, title }) => {
    const { author, second } = signaturesAsked(delivered, { kind }, nature)
    const signed = [...(author ? ['who decides'] : []), ...(second === 'none' ? [] : ['a second person'])].join(', ')
    return `| ${title}, \`${kind}\` | ${ticks(rightsOfKinds[kind])} | ${signed} |`
  })
  const routes = Object.entries(routeRights).map(([route, right]) => {
    const roles =
      right === 'open' || right === 'person' ? Role.options : right === 'operate' ? [] : rolesOfRights[right]
    return `| \`${route}\` | ${right} | ${ticks(roles)} |`
  })
  return `# Rights

Written by \`nilgrowth docs\` from the lists that the service goes by. A unit asks everyone to sign in; a demonstration, and a service
that was opened with \`NILGROWTH_SIGN_IN=open\` on one computer, asks nobody.

## What each role may record

A person has the rights of all their roles. To withdraw an entry asks for the right to record it. The signatures are those of the
policy as delivered; an exception besides asks for the signature of whoever allows it. A second person is one of
${secondRoles.join(', ')}, and another than the one who decides; where nobody else here could be, the record says so.

| Entry | ${Role.options.join(' | ')} | Signed by |
|---|${Role.options.map(() => ':-:|').join('')}---|
${kinds.join('\n')}

## What each role may ask of the API

\`open\` asks for no sign-in, \`person\` for any. \`operate\` asks that it be a program on the computer of the service, or one that brings
the token of \`NILGROWTH_METRICS_TOKEN\`.

| Route | Right | ${Role.options.join(' | ')} |
|---|---|${Role.options.map(() => ':-:|').join('')}
${routes.join('\n')}
`
}

function ticks(roles: readonly Role[]): string {
  return Role.options.map((role) => (roles.includes(role) ? 'yes' : '')).join(' | ')
}
