import { z } from 'zod'
import { defineWorking } from '../working.ts'

import { gaynesSource } from './sources.ts'

/** The category after Gaynes 2001. */
export function laparoscopicIndex(
  procedure: string,
  basicIndex: number,
  laparoscope: boolean,
): number | 'M' | '0-Yes' | '0-No' {
  if (procedure === 'CHOL' || procedure === 'COLO') {
    if (!laparoscope) return basicIndex
    return basicIndex === 0 ? 'M' : basicIndex - 1
  }
  if ((procedure === 'APPY' || procedure === 'GAST') && basicIndex === 0) return laparoscope ? '0-Yes' : '0-No'
  return basicIndex
}

export const riskIndexLaparoscopicWorking = defineWorking({
  id: 'risk-index-laparoscopic',
  title: 'Risk index with the laparoscope',
  group: 'statistics',
  method:
    'Gall bladder and colon: one point less, 0 becomes M. Appendix and stomach: only category 0 is split, 0-Yes with and 0-No without the laparoscope. Other operations: unchanged.',
  validity: 'The scheme of 2001; later national reports no longer use it. The labels are from memory.',
  sources: [gaynesSource],
  input: z.strictObject({
    scheme: z.literal('nnis2001').default('nnis2001'),
    procedure: z.string().regex(/^[A-Z]{2,5}$/, 'a code of 2 to 5 capital letters'),
    basicIndex: z.int().min(0).max(3),
    laparoscope: z.boolean(),
  }),
  output: z.strictObject({ value: z.union([z.number(), z.enum(['M', '0-Yes', '0-No'])]) }),
  example: {
    input: { scheme: 'nnis2001', procedure: 'CHOL', basicIndex: 0, laparoscope: true },
    output: { value: 'M' },
  },
  work: ({ procedure, basicIndex, laparoscope }) => ({ value: laparoscopicIndex(procedure, basicIndex, laparoscope) }),
})
