import type { Slip } from './slips.ts';

/** Measures that cannot be, or that may be but are more often a slip: what is said of them, and where. */
export const SECOND_LOOK_SLIPS: readonly Slip[] = [
  {
    name: 'inches one way and centimetres the other',
    from: 'width: 60 1/2 in',
    to: 'width: 153.67 cm',
    said: [
      '11:37: error: the quilt is 153.67 cm wide, but 60 in high: one in inches, the other in metres [mixed-units]',
    ],
  },
  {
    name: 'a unit measured with two tapes',
    from: '8 in x 9 1/2 in',
    to: '8 in x 24 cm',
    said: ['12:58: error: finished is "8 in x 24 cm": one side in inches, the other in metres [mixed-units]'],
  },
  {
    name: 'one length in two systems',
    from: 'width: 60 1/2 in',
    to: 'width: 60 in 1 cm',
    said: ['11:18: error: "60 in 1 cm" cannot be read as a length for width [bad-quantity]'],
  },
  {
    name: 'more rows than any quilt',
    from: 'rows: 5',
    to: 'rows: 900000',
    said: ['12:33: error: rows is 900000; it should lie between 1 and 400 [out-of-range]'],
  },
  {
    name: 'strips that leave no room',
    from: 'sashing: 2"',
    to: 'sashing: 16 in',
    said: [
      '11:18: warning: the units together are 128 in wide, but the quilt is 60 1/2 in [suspicious]',
      '11:37: warning: the units together are 111 1/2 in high, but the quilt is 60 in [suspicious]',
      '12:104: error: 5 strips alone are 80 in wide, but the quilt is 60 1/2 in: there is no room for units [out-of-range]',
      '12:104: error: 4 strips alone are 64 in high, but the quilt is 60 in: there is no room for units [out-of-range]',
    ],
  },
  {
    name: 'a gap of nothing',
    from: 'gap: 15.24 cm',
    to: 'gap: 0 in',
    said: [
      '16:31: error: the widest gap is nothing, but there is always some cloth between two fastenings [out-of-range]',
    ],
  },
  {
    name: 'a gap longer than the quilt',
    from: 'gap: 15.24 cm',
    to: 'gap: 90 in',
    said: ['16:31: error: the widest gap is 90 in, but the quilt is no longer than 60 1/2 in [out-of-range]'],
  },
  {
    name: 'a wide gap',
    from: 'gap: 15.24 cm',
    to: 'gap: 30 in',
    said: ['16:31: warning: 30 in without anything that holds the layers [suspicious]'],
  },
  {
    name: 'a gap too small to sew',
    from: 'gap: 15.24 cm',
    to: 'gap: 1/8 in',
    said: ['16:31: warning: the layers are held every 1/8 in [suspicious]'],
  },
  {
    name: 'more mould than quilt',
    from: 'mould_area: 0 in2',
    to: 'mould_area: 9000 in2',
    said: [
      '44:17: error: mould_area is 9000 in², but both faces of the quilt have only 7260 in² [out-of-range]',
    ],
  },
  {
    name: 'causes beyond what was inspected',
    from: 'inspected: 40, open_at: ["A1|A2 thread", "B2/C2 cloth", "E5|E6 thread"]',
    to: 'inspected: 20, thread: 18, cloth: 4',
    said: [
      '42:23: error: thread, cloth and allowance add up to 22, but only 20 joins were inspected [sum-mismatch]',
    ],
  },
  {
    name: 'more open than there are',
    from: 'inspected: 40, open_at: ["A1|A2 thread", "B2/C2 cloth", "E5|E6 thread"]',
    to: 'open: 60',
    said: ['42:18: error: 60 joins are open, but the layout has only 49 [sum-mismatch]'],
  },
  {
    name: 'causes beyond what there is',
    from: 'inspected: 40, open_at: ["A1|A2 thread", "B2/C2 cloth", "E5|E6 thread"]',
    to: 'thread: 40, cloth: 15, allowance: 0',
    said: ['42:3: error: 55 joins are open, but the layout has only 49 [sum-mismatch]'],
  },
  {
    name: 'only open joins inspected',
    from: 'inspected: 40, open_at: ["A1|A2 thread", "B2/C2 cloth", "E5|E6 thread"]',
    to: 'inspected: 30, open: 30',
    said: ['42:23: warning: all 30 joins inspected are open [suspicious]'],
  },
  {
    name: 'a day a thousand years ago',
    from: 'opened: 2026-04-06',
    to: 'opened: 1026-04-06',
    said: ['4:9: error: opened is 1026-04-06; it should lie between 1900 and 2100 [out-of-range]'],
  },
  {
    name: 'a quilt of the far future',
    from: 'about: 1935',
    to: 'about: 2135',
    said: ['10:18: error: about is 2135; it should lie between 1600 and 2100 [out-of-range]'],
  },
  {
    name: 'a quilt of the distant past',
    from: 'about: 1935',
    to: 'about: 1635',
    said: ['10:18: warning: the quilt was made about 1635 [suspicious]'],
  },
  {
    name: 'a quilt larger than any bed',
    from: 'height: 60 in }',
    to: 'height: 160 in }',
    said: ['11:37: warning: the quilt is 160 in high; the largest beds take about 120 in [suspicious]'],
  },
  {
    name: "a quilt smaller than a doll's",
    from: 'height: 60 in }',
    to: 'height: 10 in }',
    said: [
      '11:37: warning: the units together are 55 1/2 in high, but the quilt is 10 in [suspicious]',
      "11:37: warning: the quilt is only 10 in high; even a doll's quilt is about 12 in [suspicious]",
      '17:11: warning: 4.5 lb on this size is 154 oz per square yard; a heavy comfort has about 40 [suspicious]',
    ],
  },
  {
    name: 'a unit as large as a table',
    from: 'finished: 8 in x 9 1/2 in',
    to: 'finished: 40 in x 9 1/2 in',
    said: [
      '11:18: warning: the units together are 250 in wide, but the quilt is 60 1/2 in [suspicious]',
      '12:58: warning: one unit is 40 in long; blocks are seldom more than a yard [suspicious]',
    ],
  },
  {
    name: 'a unit as small as a nail',
    from: 'finished: 8 in x 9 1/2 in',
    to: 'finished: 1/4 in x 9 1/2 in',
    said: ['12:58: warning: one unit is only 1/4 in across [suspicious]'],
  },
  {
    name: 'pieces too small to sew',
    from: 'pieces_per_unit: 4',
    to: 'pieces_per_unit: 4000',
    said: [
      '12:92: warning: 4000 pieces in one unit of 8 in by 9 1/2 in would be less than 1/4 in square each [suspicious]',
    ],
  },
  {
    name: 'strips wider than the units',
    from: 'sashing: 2"',
    to: 'sashing: 10 in',
    said: [
      '11:18: warning: the units together are 98 in wide, but the quilt is 60 1/2 in [suspicious]',
      '11:37: warning: the units together are 87 1/2 in high, but the quilt is 60 in [suspicious]',
      '12:104: warning: the strips are 10 in wide, wider than the units between them [suspicious]',
    ],
  },
  {
    name: 'strips where there are none',
    from: 'kind: sashed',
    to: 'kind: edge to edge',
    said: [
      '12:110: warning: sashing is stated, but the layout is edge to edge, which has no strips [suspicious]',
    ],
  },
  {
    name: 'a batting rated beyond any',
    from: 'rated_gap: 2 in',
    to: 'rated_gap: 20 in',
    said: ['13:53: warning: a batting rated for 20 in; makers print 10 in at most [suspicious]'],
  },
  {
    name: 'a batting rated for nothing',
    from: 'rated_gap: 2 in',
    to: 'rated_gap: 1/2 in',
    said: ['13:53: warning: a batting rated for only 1/2 in; makers print 1 1/2 in at least [suspicious]'],
  },
  {
    name: 'stitches finer than any hand',
    from: 'stitches_per_inch: 9',
    to: 'stitches_per_inch: 40',
    said: ['18:45: warning: 40 stitches per inch; the finest hand sews 14, a machine about 13 [suspicious]'],
  },
  {
    name: 'stitches that hold nothing',
    from: 'stitches_per_inch: 9',
    to: 'stitches_per_inch: 1',
    said: ['18:45: warning: only 1 stitches per inch; seams have 6 to 13 [suspicious]'],
  },
  {
    name: 'a quilt lighter than its cloth',
    from: 'weight: 4 lb 8 oz',
    to: 'weight: 8 oz',
    said: [
      '17:11: warning: 0.5 lb on this size is 2.9 oz per square yard, less than one layer of cotton [suspicious]',
    ],
  },
  {
    name: 'a quilt too heavy to lift',
    from: 'weight: 4 lb 8 oz',
    to: 'weight: 45 lb',
    said: [
      '17:11: warning: 45 lb on this size is 257 oz per square yard; a heavy comfort has about 40 [suspicious]',
    ],
  },
  {
    name: 'a year of approved hours',
    from: 'hours: 14',
    to: 'hours: 1400',
    said: ['47:36: warning: 1400 hours were approved [suspicious]'],
  },
  {
    name: 'a wish for centuries',
    from: 'budget: 900',
    to: 'wanted_years: 250',
    said: ['6:86: warning: the client wants 250 years of it [suspicious]'],
  },
  {
    name: 'a rating of no batting',
    from: 'kind: loose, fibre: cotton, rated_gap: 2 in, migrated: 10 %',
    to: 'kind: none, rated_gap: 2 in',
    said: ['13:37: warning: there is no batting, yet rated_gap is stated [suspicious]'],
  },
  {
    name: 'a gap in no joining',
    from: 'kind: ties',
    to: 'kind: none',
    said: [
      '16:31: warning: nothing holds the layers together, yet gap is stated [suspicious]',
      '16:50: warning: nothing holds the layers together, yet missing is stated [suspicious]',
    ],
  },
  {
    name: 'damage to no backing',
    from: 'kind: own, fragility: worn, damaged: 5 %',
    to: 'kind: none, damaged: 5 %',
    said: ['14:35: warning: there is no backing, yet damaged is stated [suspicious]'],
  },
  {
    name: 'an unusual size in a later look',
    from: 'quilt: { backing: { damaged: 15 % }',
    to: 'quilt: { weight: 45 lb, size: { width: 200 in, height: 60 in }, backing: { damaged: 15 % }',
    said: [
      '55:22: warning: 45 lb on this size is 78 oz per square yard; a heavy comfort has about 40 [suspicious]',
      '55:44: warning: the quilt is 200 in wide; the largest beds take about 120 in [suspicious]',
    ],
  },
  {
    name: 'washed more than once a week',
    from: 'followups: []',
    to: 'completed: { on: 2026-05-01 }\nfollowups:\n  - { on: 2026-06-01, washings: 60 }',
    said: ['70:33: warning: 60 washings since 2026-05-01 are more than one a week [suspicious]'],
  },
];
