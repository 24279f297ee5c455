import { known, unknown, type Known } from '../known.ts';
import { transitionClass, type Transition } from './transition.ts';

type Place = Pick<Transition, 'last' | 'first'>;

/** How proposals compare with what is true. */
export type CutScore = {
  readonly truePositives: number;
  readonly falsePositives: number;
  readonly falseNegatives: number;
  /** Share of proposals that are right, share of true ones proposed, and their harmonic mean: 0 to 1, or why none. */
  readonly precision: Known<number, 'nothing-proposed'>;
  readonly recall: Known<number, 'nothing-true'>;
  readonly f1: Known<number, 'nothing-true-or-proposed'>;
};

/** Frames that two transitions share, each taken from its last frame before to its first frame after. */
function overlap(a: Place, b: Place, expand: number): number {
  return Math.min(a.first, b.first + expand) - Math.max(a.last, b.last - expand) + 1;
}

/**
 * Scores proposed transitions of one class against the true ones as TRECVID does: one to one, true ones earliest
 * first, each taking the unused proposal it overlaps most (at least one frame), ties by the share of the proposal
 * that overlaps, then the earliest. A cut covers two frames, the last before and the first after. Cuts match cuts
 * (and gradual changes of at most 5 frames), gradual ones gradual ones. `expand` widens proposals each way, in frames
 * from 0. Source: TRECVID shot boundary measures page; precision, recall and F1 = 2PR/(P+R).
 */
export function scoreCuts(
  truth: readonly Place[],
  proposed: readonly Place[],
  kind: 'cut' | 'gradual',
  expand = 0,
): CutScore {
  const wanted = truth.filter((place) => transitionClass(place) === kind).toSorted((a, b) => a.last - b.last);
  const offered = proposed.filter((place) => transitionClass(place) === kind).toSorted((a, b) => a.last - b.last);
  const used = new Set<Place>();
  let truePositives = 0;
  for (const place of wanted) {
    const best = offered
      .filter((other) => !used.has(other) && overlap(place, other, expand) >= 1)
      .map((other) => {
        const frames = overlap(place, other, expand);
        return { other, frames, share: frames / (other.first - other.last + 1) };
      })
      .toSorted((a, b) => b.frames - a.frames || b.share - a.share || a.other.last - b.other.last)[0];
    if (best === undefined) continue;
    used.add(best.other);
    truePositives += 1;
  }
  const all = wanted.length + offered.length;
  return {
    truePositives,
    falsePositives: offered.length - truePositives,
    falseNegatives: wanted.length - truePositives,
    precision:
      offered.length === 0
        ? unknown('nothing-proposed', `No ${kind} was proposed, so none can be right or wrong.`)
        : known(truePositives / offered.length),
    recall:
      wanted.length === 0
        ? unknown('nothing-true', `There is no true ${kind} to be found.`)
        : known(truePositives / wanted.length),
    f1:
      all === 0
        ? unknown('nothing-true-or-proposed', `There is neither a true nor a proposed ${kind}.`)
        : known((2 * truePositives) / all),
  };
}
