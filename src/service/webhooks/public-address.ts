import { type LookupAddress, lookup } from 'node:dns'
import { BlockList, isIP, type LookupFunction } from 'node:net'

/*
 * Addresses that are no place of the internet: of this computer, of its network, of its link, and those that stand for others
 * (IANA's special-purpose registries, RFC 6890, from memory). A service that may be told where to send must not be a way to them.
 */

const special = new BlockList()
for (const [net, bits] of [
  ['0.0.0.0', 8],
  ['10.0.0.0', 8],
  ['100.64.0.0', 10],
  ['127.0.0.0', 8],
  ['169.254.0.0', 16],
  ['172.16.0.0', 12],
  ['192.0.0.0', 24],
  ['192.0.2.0', 24],
  ['192.88.99.0', 24],
  ['192.168.0.0', 16],
  ['198.18.0.0', 15],
  ['198.51.100.0', 24],
  ['203.0.113.0', 24],
  ['224.0.0.0', 4],
  ['240.0.0.0', 4],
] as const)
  special.addSubnet(net, bits, 'ipv4')
// Of IPv6 what is given out at all is 2000::/3; within it those that stand for an IPv4 address or for none are left out.
const given = new BlockList()
given.addSubnet('2000::', 3, 'ipv6')
for (const [net, bits] of [
  ['2001::', 23],
  ['2001:db8::', 32],
  ['2002::', 16],
] as const)
  special.addSubnet(net, bits, 'ipv6')

export function isPublicAddress(address: string): boolean {
  const family = isIP(address)
  if (family === 4) return !special.check(address, 'ipv4')
  return family === 6 && given.check(address, 'ipv6') && !special.check(address, 'ipv6')
}

export class NotPublic extends Error {
  override name = 'NotPublic'
}

/**
 * Looks a name up for the connection itself, and lets it lead to public addresses only: a look before, by itself, could be
 * answered otherwise than the one that connects.
 */
export const lookupPublic: LookupFunction = (host, options, done) => {
  lookup(host, { ...options, all: true }, (error, found: LookupAddress[]) => {
    if (error !== null) return done(error, '')
    const [first] = found
    if (first === undefined || found.some(({ address }) => !isPublicAddress(address)))
      return done(new NotPublic(`${host} leads to an address that is not public`), '')
    if (options.all === true) done(null, found)
    else done(null, first.address, first.family)
  })
}
