import * as fc from 'fast-check'
import { PlanInstance, wounds } from './instance.ts'

/** Small days: one or two theatres, a few cases, two types of set, a line of a bench and a machine. */
export const randomDay: fc.Arbitrary<PlanInstance> = fc
  .record({
    theatres: fc.integer({ min: 1, max: 2 }),
    cases: fc.array(
      fc.record({
        dur: fc.integer({ min: 2, max: 12 }).map((fives) => fives * 5),
        wound: fc.constantFrom(...wounds),
        implant: fc.boolean(),
        infectious: fc.boolean(),
        surgeon: fc.constantFrom('S1', 'S2'),
        only: fc.integer({ min: 0, max: 2 }),
        earliest: fc.option(fc.integer({ min: 0, max: 240 }), { nil: undefined }),
        latest: fc.option(fc.integer({ min: 240, max: 700 }), { nil: undefined }),
        a: fc.integer({ min: 0, max: 2 }),
        b: fc.integer({ min: 0, max: 1 }),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    a: fc.integer({ min: 1, max: 4 }),
    b: fc.integer({ min: 1, max: 3 }),
    late: fc.integer({ min: 0, max: 120 }),
    cap: fc.integer({ min: 2, max: 4 }),
    staff: fc.integer({ min: 1, max: 2 }),
    hardClose: fc.integer({ min: 300, max: 900 }),
  })
  .map(({ theatres, cases, a, b, late, cap, staff, hardClose }) =>
    PlanInstance.parse({
      horizon: 1440,
      theatres: Array.from({ length: theatres }, (_, index) => ({ id: `T${index}`, open: 30, close: 300, hardClose })),
      turnover: { standard: 15, dirty: 30, infectious: 45 },
      surgeonGap: 5,
      cases: cases.map(({ only, a, b, earliest, latest, ...one }, index) => ({
        id: `C${index}`,
        ...one,
        ...(earliest === undefined ? {} : { earliest }),
        ...(latest === undefined ? {} : { latest }),
        theatres: theatres === 1 || only < 1 ? ['T0'] : only === 1 ? ['T1'] : ['T0', 'T1'],
        needs: { A: a, B: b },
      })),
      setTypes: [
        { id: 'A', units: a, size: 2, lead: 10, routes: ['long'] },
        {
          id: 'B',
          units: b,
          size: 1,
          lead: 0,
          routes: ['long', 'short'],
          avail: Array.from({ length: b }, (_, unit) => unit * late),
        },
      ],
      routes: {
        long: [
          { name: 'wash', kind: 'staff', pool: 'bench', dur: 15 },
          { name: 'steam', kind: 'batch', pool: 'steam' },
          { name: 'cool', kind: 'delay', dur: 10 },
        ],
        short: [{ name: 'bath', kind: 'staff', pool: 'bench', dur: 40 }],
      },
      pools: [
        { id: 'bench', kind: 'staff', count: staff, from: 0, to: 840 },
        { id: 'steam', kind: 'batch', count: 1, cap, dur: 45, from: 60, to: 900 },
      ],
    }),
  )
