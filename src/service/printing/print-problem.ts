import { problem } from '../problems.ts'
import type { ApiProblem } from '../api-types.ts'

/** A page that is not set in time is given up, so that those that wait behind it are printed. */
export function pageNotSet(seconds: number): ApiProblem {
  return problem('page-not-set', {
    title: 'The page could not be set for paper in time',
    status: 503,
    detail: `Wanted a page that is set within ${seconds} seconds; this one was not, and was given up. The record is as it was.`,
    remedy: 'Try again. If it happens again, read it on the screen: what it holds is too long for paper.',
  })
}
