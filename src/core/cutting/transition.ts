/** A change from one shot to the next. */
export type Transition = {
  /** `cut`: from one frame to the next. `dissolve`, `fade`: over some frames. */
  readonly kind: 'cut' | 'dissolve' | 'fade';
  /** The last frame that shows only the shot before, and the first that shows only the shot after. */
  readonly last: number;
  readonly first: number;
  /** How sure the proposal is, 0 to 1; a rank, not a probability. */
  readonly confidence: number;
};

/** Frames strictly between the two shots up to which a gradual change counts as a cut (TRECVID measures). */
export const shortGradual = 5;

/** The class a transition is scored in: cuts, and gradual changes of at most 5 frames, against longer ones. */
export function transitionClass({ last, first }: Pick<Transition, 'last' | 'first'>): 'cut' | 'gradual' {
  return first - last - 1 <= shortGradual ? 'cut' : 'gradual';
}
