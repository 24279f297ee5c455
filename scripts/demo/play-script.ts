/** A figure's slot in a play drawn up as if it went to the right; `p` is the play side, `b` the back side. */
export const OFFENCE = ['C', 'PG', 'BG', 'PT', 'BT', 'Y', 'H', 'X', 'Z', 'QB', 'RB'] as const;
export const DEFENCE = ['DEp', 'DTp', 'NT', 'DEb', 'MIKE', 'WILL', 'SAM', 'CBx', 'CBz', 'FS', 'SS'] as const;
export type OffenceSlot = (typeof OFFENCE)[number];
export type DefenceSlot = (typeof DEFENCE)[number];
export type Slot = OffenceSlot | DefenceSlot;

export type Concept = 'inside zone' | 'outside zone' | 'power' | 'counter' | 'toss' | 'draw';
export type PassKind = 'drop back' | 'play action' | 'flat route';
export type Personnel = '11' | '12' | '21' | '22';
export type BlockResult = 'won' | 'stalemate' | 'lost';

/** A point of the runner's way: u yards past the line of scrimmage, w yards to the play side, speed in yards a second. */
export type Way = readonly [u: number, w: number, speed: number];

/** What happens to a carry, drawn up to the right; the choreography fills in everything else. */
export type RunScript = {
  /** Where he aims and where he cuts: the last point behind the line before he turns downhill. */
  readonly press: Way;
  /** Short wasted steps spent between press and plant: frames, and yards given back. */
  readonly chop?: { readonly frames: number; readonly back: number };
  /** The way from the plant to first contact, the last point being the contact itself. */
  readonly way: readonly Way[];
  /** Who meets him, and from which of his sides the hit is placed. */
  readonly tackler?: DefenceSlot;
  readonly assist?: readonly DefenceSlot[];
  /** Sideways drift after contact, yards to the play side. */
  readonly drift?: number;
  /** Defenders who come and miss: at which point of the way (index) each dives. */
  readonly misses?: readonly { readonly by: DefenceSlot; readonly at: number; readonly touch: boolean }[];
  readonly end?: 'tackled' | 'touchdown' | 'out of bounds' | 'fumble lost' | 'fumble kept';
};

export type PassScript = {
  readonly kind: PassKind;
  readonly complete: boolean;
  /** Which slot the ball goes to, and where it comes down. */
  readonly to: OffenceSlot;
  readonly at: readonly [u: number, w: number];
  /** The defender who rushes through and whom the back meets. */
  readonly blitz?: DefenceSlot;
};

/** One snap as it is drawn up: side, men, and the outcome, in whole yards where the rules count whole yards. */
export type PlayScript = {
  readonly key: string;
  readonly side: 'left' | 'right';
  readonly personnel: Personnel;
  readonly shotgun: boolean;
  readonly box: 6 | 7 | 8 | 9;
  readonly tightEnd: 'play side' | 'back side';
  readonly concept?: Concept;
  readonly run?: RunScript;
  readonly pass?: PassScript;
  /** Blocks that go other than even, by defender. */
  readonly blocks?: Partial<Record<DefenceSlot, BlockResult>>;
  readonly gainYards: number;
};
