import { z } from 'zod'

/** Infections closer together in time than the list of operations explains. */
export const TimeCluster = z.object({
  from: z.string(),
  to: z.string(),
  infections: z.int(),
  operations: z.int(),
  /** How often chance alone would bring so close a group anywhere in the time looked at. */
  p: z.number(),
})
export type TimeCluster = z.infer<typeof TimeCluster>

export const clusterPlaces = ['theatre', 'steriliser', 'surgeon'] as const

/** The same within one place, or in all places together; `place` is null for all together. */
export const PlaceCluster = TimeCluster.extend({ by: z.enum(clusterPlaces), place: z.string().nullable() })
export type PlaceCluster = z.infer<typeof PlaceCluster>

export const ClustersAnswer = z.object({
  operations: z.int(),
  infections: z.int(),
  inTime: TimeCluster.nullable(),
  inPlace: z.array(PlaceCluster),
})
export type ClustersAnswer = z.infer<typeof ClustersAnswer>
