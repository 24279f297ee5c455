/** The demo season as demo/season.json holds it (demo/README.md); only what the study is made from. */
export type Season = {
  readonly teams: readonly { readonly id: string; readonly name: string }[];
  readonly runners: readonly {
    readonly id: string;
    readonly name: string;
    readonly teamId: string;
    readonly jersey: number;
    readonly classYear: string;
    readonly heightInches: number;
    readonly weightPounds: number;
  }[];
  readonly evaluators: readonly { readonly id: string; readonly name: string }[];
  readonly games: readonly {
    readonly id: string;
    readonly season: number;
    readonly week: number;
    readonly date: string;
    readonly awayTeamId: string;
    readonly homeTeamId: string;
    readonly note: string;
    readonly officialLines: readonly {
      readonly runnerId: string;
      readonly attempts: number;
      readonly yards: number;
      readonly snaps: number;
    }[];
  }[];
  readonly films: readonly {
    readonly id: string;
    readonly angle: 'sideline' | 'end zone';
    readonly file: string;
    readonly frameCount: number;
  }[];
  readonly plays: readonly SeasonPlay[];
  readonly verdicts: readonly {
    readonly runnerId: string;
    readonly evaluatorId: string;
    readonly role?: string;
    readonly fit?: string;
    readonly wouldChange?: string;
    readonly sentences: readonly {
      readonly text: string;
      readonly citesFor: readonly string[];
      readonly citesAgainst: readonly string[];
    }[];
  }[];
};

export type SeasonSpan = {
  readonly filmId: string;
  readonly angle: 'sideline' | 'end zone';
  readonly kind: 'live' | 'replay';
  /** Speed shown: 1 live, 0.5 for half speed. */
  readonly timeScale: number;
  readonly inFrame: number;
  readonly outFrame: number;
  readonly moments: Readonly<Record<string, number>>;
  readonly steps: readonly {
    readonly frame: number;
    readonly foot: 'L' | 'R';
    readonly x: number;
    readonly y: number;
  }[];
};

export type SeasonMark = {
  readonly evaluatorId: string;
  readonly look: 'first' | 'second';
  readonly trait: string;
  readonly state: string;
  readonly filmId: string;
  readonly frame: number;
  readonly markedOn: string;
  readonly value?: number;
  readonly clearness?: 'clear' | 'partial' | 'obscured';
  readonly note?: string;
};

export type SeasonLane = {
  readonly id: string;
  readonly name: string;
  readonly state: 'open' | 'closing' | 'filled';
  readonly lowYards: number;
  readonly likelyYards: number;
  readonly highYards: number;
  readonly taken: boolean;
  readonly paths: readonly {
    readonly filmId: string;
    readonly frame: number;
    readonly points: readonly (readonly [number, number])[];
  }[];
};

export type SeasonPart = {
  readonly runnerId: string;
  readonly kind: 'run' | 'protect' | 'route' | 'target' | 'fake' | 'return';
  readonly alignment: string;
  readonly depthYards: number;
  readonly countsInResults: boolean;
  readonly why?: string;
  readonly note?: string;
  readonly path?: 'on track' | 'bend' | 'bounce';
  readonly gainYards?: number;
  readonly yardsBeforeContact?: number;
  readonly firstContactSlot?: string;
  readonly firstContactWhere?: 'backfield' | 'line' | 'second level' | 'open field' | 'sideline';
  readonly missedTackles?: number;
  readonly ballArm?: 'left' | 'right' | 'both' | 'wrong side';
  readonly fumble?: 'none' | 'kept' | 'lost';
  readonly outOfBounds?: 'no' | 'forced' | 'chosen';
  readonly clearedYards?: number;
  readonly holdsUp?: { readonly answer: string; readonly because: string };
  readonly ledger?: { readonly sealed: boolean; readonly lanes: readonly SeasonLane[] } | null;
  readonly marks?: readonly SeasonMark[];
};

export type SeasonPlay = {
  readonly id: string;
  readonly gameId: string;
  readonly number: number;
  readonly series: number;
  readonly quarter: number;
  readonly clockSeconds: number;
  readonly awayScore: number;
  readonly homeScore: number;
  readonly offenceTeamId: string;
  readonly defenceTeamId: string;
  readonly kind: 'run' | 'pass';
  readonly down: number;
  readonly toGoYards: number;
  readonly spotYards: number;
  readonly hash: 'left' | 'middle' | 'right';
  readonly personnel: { readonly backs: number; readonly tightEnds: number };
  readonly formation: string;
  readonly motion: string;
  readonly concept?: string;
  readonly direction?: 'left' | 'middle' | 'right';
  readonly designedGap?: { readonly gap: 'A' | 'B' | 'C' | 'D' };
  readonly hitGap?: { readonly gap: 'A' | 'B' | 'C' | 'D' };
  readonly option?: string;
  readonly pullers: readonly string[];
  readonly leadBlockers: readonly string[];
  readonly front: string;
  readonly boxCount: number;
  readonly safetiesDeep: number;
  readonly slantOrBlitz: string;
  readonly readDefender?: { readonly who: string; readonly certainty: 'known' | 'assumed' };
  readonly pointOfAttack?: 'won' | 'stalemate' | 'lost';
  readonly freeDefender?: { readonly who: string; readonly failedBlockBy?: string };
  readonly penetration?: { readonly by: string; readonly depthYards: number };
  readonly result: string;
  readonly gainYards: number;
  readonly penalty?: { readonly name: string; readonly against: 'offence' | 'defence'; readonly yards: number };
  readonly comeBack: boolean;
  readonly spans: readonly SeasonSpan[];
  readonly parts: readonly SeasonPart[];
  readonly chalk: readonly {
    readonly kind: string;
    readonly filmId: string;
    readonly inFrame: number;
    readonly outFrame: number;
    readonly points: readonly (readonly [number, number])[];
    readonly radiusPixels?: number;
    readonly text?: string;
  }[];
};
