import type { EvaluatorId, RunnerId } from './people.ts';

/** One sentence of a verdict with the carries it cites, for and against (play ids). */
export type Sentence = {
  readonly text: string;
  readonly citesFor: readonly string[];
  readonly citesAgainst: readonly string[];
};

/** What one evaluator writes of one runner for the first page of a dossier. */
export type Verdict = {
  readonly runnerId: RunnerId;
  readonly evaluatorId: EvaluatorId;
  readonly role: string;
  readonly fit: string;
  readonly sentences: readonly Sentence[];
  readonly wouldChange: string;
};

const one = (number: number): string => `harlan-ridge-at-coldwater-${String(number).padStart(2, '0')}`;
const two = (number: number): string => `pell-harbor-at-harlan-ridge-${String(number).padStart(2, '0')}`;

/** The verdicts of the demo season. */
export const VERDICTS: readonly Verdict[] = [
  {
    runnerId: 'okafor-lyle',
    evaluatorId: 'amari',
    role: 'Early downs and short yardage, in a pair of backs',
    fit: 'Inside zone, power and counter; little that asks him to win the edge',
    sentences: [
      {
        text: 'Reads the second level early and lets zone and power plays form in front of him.',
        citesFor: [one(1), one(4), one(10), one(23), two(15)],
        citesAgainst: [one(11)],
      },
      {
        text: 'Turns late on outside zone: short steps where two would do, and the edge closes.',
        citesFor: [one(2), two(4)],
        citesAgainst: [two(21)],
      },
      {
        text: 'Knows where the sticks are: third downs come out at the marker or past it.',
        citesFor: [one(9), two(3), two(9), two(17), two(22)],
        citesAgainst: [],
      },
      {
        text: 'Has plain speed and is caught from outside.',
        citesFor: [one(13), two(16)],
        citesAgainst: [two(5)],
      },
      {
        text: 'Good enough to share a backfield now; more if the turn gets shorter.',
        citesFor: [one(14), two(5), two(21)],
        citesAgainst: [two(16)],
      },
    ],
    wouldChange: 'Four carries against Pell Harbor are not on our film, and one short turn is not a habit.',
  },
  {
    runnerId: 'okafor-lyle',
    evaluatorId: 'osgaard',
    role: 'Second back',
    fit: 'A team that runs between the tackles',
    sentences: [
      {
        text: 'The press is real; I see it where I can see his feet.',
        citesFor: [one(9), two(5)],
        citesAgainst: [one(2)],
      },
      {
        text: 'I mark his pace lower than Amari does: after the cut he runs at one speed.',
        citesFor: [two(16), one(8)],
        citesAgainst: [],
      },
    ],
    wouldChange: 'A game against a fast front seven.',
  },
  {
    runnerId: 'brask',
    evaluatorId: 'amari',
    role: 'Change of pace',
    fit: 'Outside zone and toss from the gun; draws',
    sentences: [
      {
        text: 'Is at full speed two steps after the cut; angles that hold most backs do not hold him.',
        citesFor: [one(6), one(22), two(6), two(11)],
        citesAgainst: [],
      },
      {
        text: 'Leaves his aiming point before the block has shown and runs from the help.',
        citesFor: [one(7), two(2), two(7), two(13)],
        citesAgainst: [two(12)],
      },
      {
        text: 'Chops his feet when the picture is not clean.',
        citesFor: [one(7), two(2), two(13)],
        citesAgainst: [two(6)],
      },
      {
        text: 'Carries the ball away from his body in the open field.',
        citesFor: [two(18)],
        citesAgainst: [one(22)],
      },
    ],
    wouldChange: 'Whether he stays with the puller again, as he did once in the third quarter.',
  },
  {
    runnerId: 'quillane',
    evaluatorId: 'amari',
    role: 'Not placed',
    fit: 'Four carries in one game',
    sentences: [
      {
        text: 'Low pads move a linebacker; four carries are no verdict.',
        citesFor: [one(16), one(17)],
        citesAgainst: [one(19)],
      },
      {
        text: 'The one ball he lost was loose before the hit.',
        citesFor: [one(20)],
        citesAgainst: [],
      },
    ],
    wouldChange: 'A second game.',
  },
];
