import { isIPv6 } from 'node:net'
import type { FastifyRequest } from 'fastify'
import type { ServiceConfig } from '../config.ts'
import type { Who } from '../sign-in/who.ts'
import { rateLimit } from './rate-limit.ts'

/** How much may be asked in a minute, so that one who asks too much takes nothing from the others. */
export interface Rates {
  /** One request; gives 0, or the seconds to wait. */
  asked(who: Who, address: string): number
  /** One try to prove who it is. It counts until it has come out right. */
  tried(request: FastifyRequest): Try
}

export interface Try {
  /** 0, or the seconds to wait before another try. */
  readonly wait: number
  readonly right: () => void
}

/**
 * Everyone who is signed in has a measure of their own, since all tablets of a unit may stand behind one address; who is not
 * shares that of the address. Wrong tries are counted by enrolled tablet, and elsewhere by address.
 */
export function ratesOf({ signIn, rates }: Pick<ServiceConfig, 'signIn' | 'rates'>): Rates {
  const bySession = rateLimit(rates.sessionPerMinute)
  const byAddress = rateLimit(rates.addressPerMinute)
  const tries = rateLimit(rates.triesPerMinute)
  return {
    asked(who, address) {
      if (who.kind === 'person') return bySession.take(who.session.token)
      // A service that was opened so is reached by its own computer alone.
      return signIn === 'open' ? 0 : byAddress.take(keyOf(address))
    },
    tried({ who, ip }) {
      const device = who.kind === 'anyone' ? undefined : who.device
      const key = device === undefined ? keyOf(ip) : `device ${device.id}`
      return { wait: tries.take(key), right: () => tries.giveBack(key) }
    },
  }
}

/** Whoever has one address of IPv6 has all of its network of 64 bits. */
export function keyOf(address: string): string {
  if (!isIPv6(address)) return address
  const [plain = ''] = address.split('%')
  const mapped = /^::ffff:(\d+\.\d+\.\d+\.\d+)$/i.exec(plain)?.[1]
  if (mapped !== undefined) return mapped
  const [head = '', tail] = new URL(`http://[${plain}]`).hostname.slice(1, -1).split('::')
  const first = head === '' ? [] : head.split(':')
  const last = tail === undefined || tail === '' ? [] : tail.split(':')
  const zeros = tail === undefined ? [] : Array.from({ length: 8 - first.length - last.length }, () => '0')
  return [...first, ...zeros, ...last].slice(0, 4).join(':')
}
