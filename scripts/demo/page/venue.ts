/** Colours of one stadium on one day. */
export type Venue = {
  readonly grass: string;
  readonly grassLight: string;
  readonly grassFar: string;
  readonly apron: string;
  readonly paint: string;
  readonly paintLight: string;
  readonly crest: 'ridge' | 'wave';
  readonly sky: readonly [string, string];
  readonly stand: string;
  readonly standDark: string;
  readonly wall: string;
  readonly crowd: readonly string[];
  readonly sun: readonly [number, number];
  readonly shadow: number;
  readonly warm: string;
  readonly haze: string;
};

/** Coldwater's ground: a clear afternoon, blue seats. */
export const COLDWATER_GROUND: Venue = {
  grass: '#37693b',
  grassLight: '#437945',
  grassFar: '#3a6b3d',
  apron: '#56604f',
  paint: '#2f577d',
  paintLight: 'rgba(232,236,238,0.82)',
  crest: 'wave',
  sky: ['#8fb3cf', '#d7e3e6'],
  stand: '#6d747b',
  standDark: '#565c63',
  wall: '#2b4a68',
  crowd: ['#3c6288', '#2f4f70', '#8299ad', '#c9ccc8', '#a7a39a', '#6f655f', '#b9c3cc', '#4d5a68', '#8a5f52', '#d8d2c2'],
  sun: [0.75, -0.38],
  shadow: 0.36,
  warm: 'rgba(255,236,190,0.05)',
  haze: 'rgba(98,112,124,0.62)',
};

/** Harlan Ridge's ground: late light, burgundy seats. */
export const HARLAN_RIDGE_GROUND: Venue = {
  grass: '#436b33',
  grassLight: '#50793b',
  grassFar: '#426931',
  apron: '#6b5d4c',
  paint: '#6b2333',
  paintLight: 'rgba(238,222,190,0.80)',
  crest: 'ridge',
  sky: ['#93a3b8', '#f0d9b8'],
  stand: '#776c66',
  standDark: '#5e5450',
  wall: '#551d2a',
  crowd: ['#7a2f3c', '#5d2230', '#b59a72', '#d5c9b4', '#8d8078', '#66584f', '#c79a4a', '#4e4644', '#9c6a5c', '#e0d6c4'],
  sun: [-1.25, -0.55],
  shadow: 0.32,
  warm: 'rgba(255,196,110,0.085)',
  haze: 'rgba(120,98,84,0.62)',
};

/** A kit: what one side wears. */
export type Kit = {
  readonly helmet: string;
  readonly stripe: string;
  readonly mask: string;
  readonly jersey: string;
  readonly trim: string;
  readonly numerals: string;
  readonly pants: string;
  readonly sock: string;
  readonly shoe: string;
};

export const KITS: Readonly<Record<string, Kit>> = {
  'harlan-ridge-away': {
    helmet: '#6b1f2f',
    stripe: '#e8b04a',
    mask: '#d8d2c4',
    jersey: '#ece5d4',
    trim: '#6b1f2f',
    numerals: '#6b1f2f',
    pants: '#76283a',
    sock: '#e6decd',
    shoe: '#e9e6de',
  },
  'harlan-ridge-home': {
    helmet: '#6b1f2f',
    stripe: '#e8b04a',
    mask: '#d8d2c4',
    jersey: '#7c2537',
    trim: '#e8b04a',
    numerals: '#f2e8d2',
    pants: '#e4d8bd',
    sock: '#7c2537',
    shoe: '#2a2526',
  },
  'coldwater-home': {
    helmet: '#c3c9cd',
    stripe: '#2d557b',
    mask: '#39495a',
    jersey: '#3a678f',
    trim: '#dfe5e8',
    numerals: '#f1f3f2',
    pants: '#b3bbc1',
    sock: '#2b4d6f',
    shoe: '#24292e',
  },
  'pell-harbor-away': {
    helmet: '#1f5a57',
    stripe: '#f0f0ea',
    mask: '#bfc6c4',
    jersey: '#eef0ec',
    trim: '#1f5a57',
    numerals: '#1f5a57',
    pants: '#2a5f5d',
    sock: '#eef0ec',
    shoe: '#23282a',
  },
};
