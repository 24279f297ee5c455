import { filmFrame } from '../film-plan.ts';
import type { Moments } from '../runner-plan.ts';
import { seeded, seededNormal, seedFrom } from '../seed.ts';
import { contactYards } from './chart.ts';
import type { Showing } from './ledger.ts';
import type { EvaluatorId, RunnerId } from './people.ts';
import type { CarryRow } from './rows.ts';
import type { LivePlay } from './series.ts';

export const TRAITS = [
  'press',
  'tempo',
  'crease',
  'penetration',
  'steps',
  'cut',
  'pace',
  'pads',
  'sticks',
  'risk',
  'finish',
  'ball',
] as const;
export type Trait = (typeof TRAITS)[number];

/** What each runner is, in the trait's own 1 to 5: patient and tidy but plain; explosive but wasteful; strong and loose with the ball. */
const LEVELS: Record<RunnerId, Record<Trait, number>> = {
  'okafor-lyle': {
    press: 3.8,
    tempo: 3.8,
    crease: 3.5,
    penetration: 3.2,
    steps: 3.4,
    cut: 3.5,
    pace: 2.7,
    pads: 3.4,
    sticks: 3.8,
    risk: 3.7,
    finish: 3.2,
    ball: 3.6,
  },
  brask: {
    press: 2.8,
    tempo: 2.7,
    crease: 3,
    penetration: 3.3,
    steps: 2.7,
    cut: 3.2,
    pace: 4.2,
    pads: 2.8,
    sticks: 2.8,
    risk: 2.8,
    finish: 3.5,
    ball: 2.8,
  },
  quillane: {
    press: 3.1,
    tempo: 3,
    crease: 3.2,
    penetration: 2.6,
    steps: 3,
    cut: 2.9,
    pace: 3.1,
    pads: 3.9,
    sticks: 3,
    risk: 3,
    finish: 3.9,
    ball: 2.4,
  },
};

const AT: Record<Trait, keyof Moments> = {
  press: 'press',
  tempo: 'firstRead',
  crease: 'decision',
  penetration: 'exchange',
  steps: 'plant',
  cut: 'plant',
  pace: 'cut',
  pads: 'firstContact',
  sticks: 'down',
  risk: 'decision',
  finish: 'firstContact',
  ball: 'firstContact',
};

function shift(trait: Trait, row: CarryRow, play: LivePlay): number {
  const after = row.gain - contactYards(play, row);
  const success = row.gain >= play.toGoYards;
  const decision = { good: 0.45, fair: -0.1, poor: -1.3 }[row.decision];
  const feet = { tidy: 0.45, fair: 0, wasteful: -1.2 }[row.feet];
  const press = { 'to the heels': 0.5, fair: 0, early: -0.9 }[row.press];
  switch (trait) {
    case 'press':
      return press;
    case 'tempo':
      return press * 0.6 + decision * 0.2;
    case 'crease':
      return decision;
    case 'penetration':
      return row.gain >= 0 ? 0.4 : -0.7;
    case 'steps':
      return feet;
    case 'cut':
      return feet * 0.5;
    case 'pace':
      return row.feet === 'wasteful' ? -0.4 : 0.1;
    case 'pads':
      return after >= 3 ? 0.4 : 0;
    case 'sticks':
      return success ? 0.5 : -0.4;
    case 'risk':
      return decision * 0.8 + (row.pathKind === 'bounce' && row.gain < 3 ? -0.5 : 0);
    case 'finish':
      return after >= 3 ? 0.7 : after === 0 ? -0.6 : 0;
    case 'ball':
      break;
  }
  return row.end === 'fumble lost' ? -1.6 : row.end === 'fumble kept' ? -1 : 0.2;
}

type State = 'shown' | 'not shown' | 'cannot be seen';

function stateOf(trait: Trait, row: CarryRow, play: LivePlay, chance: number): State {
  const contact = play.staged.moves.moments.firstContact !== undefined;
  switch (trait) {
    case 'press':
      if (row.concept === 'draw' || row.concept === 'toss') return 'not shown';
      return row.obscured ? 'cannot be seen' : 'shown';
    case 'penetration':
      return row.penetration ? 'shown' : 'not shown';
    case 'pads':
      if (!contact) return 'not shown';
      return row.obscured || chance < 0.12 ? 'cannot be seen' : 'shown';
    case 'finish':
      return contact ? 'shown' : 'not shown';
    case 'ball':
      if (row.end === 'fumble lost' || row.end === 'fumble kept') return 'shown';
      if (row.obscured) return 'cannot be seen';
      return contact && chance < 0.6 ? 'shown' : 'not shown';
    case 'sticks':
      return play.down >= 3 || play.toGoYards <= 3 || row.end === 'out of bounds' ? 'shown' : 'not shown';
    case 'cut':
      return row.obscured ? 'cannot be seen' : row.pathKind === 'on track' && chance < 0.25 ? 'not shown' : 'shown';
    case 'tempo':
    case 'crease':
    case 'steps':
    case 'pace':
    case 'risk':
      break;
  }
  return 'shown';
}

/** Where two written anchors lie, halves are allowed; the ends stay whole. */
function rounded(value: number, halves: boolean): number {
  const step = halves ? 2 : 1;
  return Math.min(5, Math.max(1, Math.round(value * step) / step));
}

function noteOf(trait: Trait, row: CarryRow, value: number): string | undefined {
  if (trait === 'steps' && row.feet === 'wasteful') return 'Short steps in place before the turn.';
  if (trait === 'press' && row.press === 'early') return 'Leaves the aiming point before the linebacker has moved.';
  if (trait === 'press' && row.press === 'to the heels' && value >= 4)
    return 'On the blocker\u2019s heels before he cuts.';
  if (trait === 'crease' && row.decision === 'poor') return 'The better lane was on the other side of the block.';
  if (trait === 'ball' && row.end?.startsWith('fumble')) return 'Ball away from the body at contact.';
  if (trait === 'pace' && value >= 4.5) return 'Full speed two steps after the plant.';
  if (trait === 'finish' && value >= 4) return 'Runs through the first arm.';
  return undefined;
}

/** Which evaluator has looked at which carry, and how: the rest is not yet looked. */
function looks(evaluator: EvaluatorId, play: LivePlay, row: CarryRow): boolean {
  if (row.unmarkedBy?.includes(evaluator)) return false;
  return evaluator === 'amari' || play.number % 3 !== 1;
}

const OSGAARD_SKIPS: readonly Trait[] = ['sticks', 'risk'];

/** One carry's marks by both evaluators, first looks and blind second looks. */
export function marksOf(
  play: LivePlay,
  row: CarryRow,
  gameDate: string,
  showings: readonly Showing[],
): Record<string, unknown>[] {
  const side = showings.find((showing) => showing.plan.angle === 'sideline');
  const end = showings.find((showing) => showing.plan.angle === 'end zone');
  const looksAt: { evaluator: EvaluatorId; look: 'first' | 'second'; days: number }[] = [];
  if (looks('amari', play, row)) looksAt.push({ evaluator: 'amari', look: 'first', days: 2 });
  if (looks('osgaard', play, row)) looksAt.push({ evaluator: 'osgaard', look: 'first', days: 5 });
  if (looks('amari', play, row) && play.number % 5 === 0)
    looksAt.push({ evaluator: 'amari', look: 'second', days: 24 });
  return looksAt.flatMap(({ evaluator, look, days }) => {
    const next = seeded(seedFrom(`${play.id} ${evaluator} ${look}`));
    const shared = seeded(seedFrom(`${play.id} marks`));
    return TRAITS.flatMap((trait) => {
      const chance = shared();
      const carryNoise = seededNormal(shared) * 0.28;
      const own = seededNormal(next) * (evaluator === 'amari' ? 0.3 : 0.4);
      if (evaluator === 'osgaard' && (OSGAARD_SKIPS.includes(trait) || next() < 0.08)) return [];
      const state = stateOf(trait, row, play, chance);
      const vision = trait === 'press' || trait === 'tempo' || trait === 'crease' || trait === 'penetration';
      const showing = vision && end ? end : (side ?? end);
      if (!showing) return [];
      const moments = play.staged.moves.moments;
      const at = moments[AT[trait]] ?? moments.down;
      const base = {
        evaluatorId: evaluator,
        look,
        trait,
        state,
        filmId: showing.plan.id,
        frame: filmFrame(showing.segment, at),
        markedOn: dayAfter(gameDate, days),
      };
      if (state !== 'shown') return [base];
      const strict = evaluator === 'osgaard' ? -0.3 : look === 'second' ? -0.1 : 0;
      const value = rounded(
        LEVELS[row.runner][trait] + shift(trait, row, play) + carryNoise + own + strict,
        evaluator === 'amari' || next() < 0.35,
      );
      const inside = row.concept !== 'outside zone' && row.concept !== 'toss';
      const clearness = row.obscured
        ? 'obscured'
        : inside && !end && (trait === 'steps' || vision)
          ? 'partial'
          : 'clear';
      const note = evaluator === 'amari' && look === 'first' ? noteOf(trait, row, value) : undefined;
      return [{ ...base, value, clearness, ...(note ? { note } : {}) }];
    });
  });
}

function dayAfter(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}
