import type { BlockResult, Concept, DefenceSlot, OffenceSlot, PassKind, Personnel, Way } from '../play-script.ts';
import type { EvaluatorId, RunnerId, TeamId } from './people.ts';

export type Gap = 'A' | 'B' | 'C' | 'D';
/** A gap to the play side, or one on the back side of the ball. */
export type GapName = Gap | `back ${Gap}`;

/** How a carry was read and run: what the film is drawn to show, and what the marks then say. */
export type Quality = {
  readonly decision: 'good' | 'fair' | 'poor';
  readonly press: 'to the heels' | 'fair' | 'early';
  readonly feet: 'tidy' | 'fair' | 'wasteful';
};

type Look = {
  readonly side: 'left' | 'right';
  readonly personnel: Personnel;
  readonly shotgun: boolean;
  readonly box: 6 | 7 | 8 | 9;
  readonly tightEnd?: 'play side' | 'back side';
  readonly motion?: string;
  readonly blocks?: Partial<Record<DefenceSlot, BlockResult>>;
  readonly endZone?: boolean;
  readonly replay?: number;
  readonly blitz?: string;
};

/** One carry as a scriptwriter puts it down; spots, downs and clock follow from the series. */
export type CarryRow = Look &
  Quality & {
    readonly kind: 'carry';
    readonly runner: RunnerId;
    readonly concept: Concept;
    readonly designed: Gap;
    readonly hit: GapName;
    readonly gain: number;
    /** Yards past the line at first contact; absent when nobody touches him. */
    readonly contact?: number;
    readonly by?: DefenceSlot;
    readonly assist?: readonly DefenceSlot[];
    readonly pathKind: 'on track' | 'bend' | 'bounce';
    readonly end?: 'touchdown' | 'out of bounds' | 'fumble lost' | 'fumble kept';
    readonly misses?: readonly { readonly by: DefenceSlot; readonly at: number; readonly touch: boolean }[];
    /** Points of his way past the line and before the contact, when it is not straight. */
    readonly through?: readonly Way[];
    readonly penalty?: { readonly name: string; readonly against: 'offence' | 'defence'; readonly yards: number };
    readonly poa: BlockResult;
    readonly penetration?: { readonly by: DefenceSlot; readonly depthYards: number };
    readonly option?: 'give was read' | 'give was called';
    readonly holdsUp: 'yes' | 'no' | "can't tell";
    readonly because: string;
    readonly note?: string;
    readonly unmarkedBy?: readonly EvaluatorId[];
    readonly obscured?: boolean;
  };

/** One pass play, with what the back did in it. */
export type PassRow = Look & {
  readonly kind: 'pass';
  readonly runner: RunnerId;
  readonly part: 'protect' | 'fake' | 'route';
  readonly passKind: PassKind;
  readonly to: OffenceSlot;
  readonly at: readonly [number, number];
  readonly complete: boolean;
  readonly gain: number;
  readonly blitzer?: DefenceSlot;
  readonly note?: string;
};

export type Row = CarryRow | PassRow;

/** A run of plays by one offence, from where it took the ball. */
export type SeriesRow = {
  readonly offence: TeamId;
  readonly quarter: number;
  readonly clockSeconds: number;
  readonly spotYards: number;
  readonly startY: number;
  readonly drive: 1 | -1;
  readonly awayScore: number;
  readonly homeScore: number;
  readonly rows: readonly Row[];
};

export type OfficialLine = {
  readonly runnerId: RunnerId;
  readonly attempts: number;
  readonly yards: number;
  readonly touchdowns: number;
  readonly fumblesLost: number;
  readonly snaps: number;
};

export type GameRow = {
  readonly id: string;
  readonly season: number;
  readonly week: number;
  readonly date: string;
  readonly away: TeamId;
  readonly home: TeamId;
  readonly finalAwayScore: number;
  readonly finalHomeScore: number;
  readonly venue: 'coldwater' | 'harlan-ridge';
  readonly kits: { readonly away: string; readonly home: string };
  readonly loggedInPart: boolean;
  readonly note: string;
  readonly officialLines: readonly OfficialLine[];
  /** The score card stands before this play (1 is the first). */
  readonly cardBefore: number;
  readonly series: readonly SeriesRow[];
};
