import type { NextState } from '../../../core/expectation/next-state.ts';

const ordinals = { 1: '1st', 2: '2nd', 3: '3rd', 4: '4th' } as const;

/** Where a gain leads, in words: “2nd & 4”, “goal to go”, “score”. */
export function stateInWords(state: NextState): string {
  switch (state.kind) {
    case 'touchdown':
      return 'score';
    case 'safety':
      return 'safety';
    case 'turnover on downs':
      return 'ball lost on downs';
    case 'first down':
      return state.toGo === state.yardsToGoal ? '1st & goal' : `1st & ${state.toGo}`;
    case 'next down':
      return `${ordinals[state.down]} & ${state.toGo === state.yardsToGoal ? 'goal' : state.toGo}`;
  }
}

/** A number with its sign, and a true minus. */
export const signed = (value: number, digits = 2): string => {
  const rounded = Math.abs(value).toFixed(digits);
  return `${value < 0 && Number(rounded) !== 0 ? '−' : '+'}${rounded}`;
};

/** A number with a true minus, unsigned when not below 0. */
export const plain = (value: number, digits = 0): string => {
  const rounded = Math.abs(value).toFixed(digits);
  return `${value < 0 && Number(rounded) !== 0 ? '−' : ''}${rounded}`;
};

/** A chance from 0 to 1 in per cent; one that is not quite nothing or certain is never said to be. */
export function chanceInWords(chance: number): string {
  if (chance > 0 && chance < 0.005) return 'under 1 %';
  if (chance < 1 && chance > 0.995) return 'over 99 %';
  return `${(chance * 100).toFixed(0)} %`;
}

/** Whole yards as typed, `-` or a true minus before them; null when it is none from -20 to 99. */
export function typedYards(text: string): number | null {
  const typed = text.trim().replace('−', '-');
  if (!/^-?\d{1,2}$/.test(typed)) return null;
  const yards = Number(typed) + 0;
  return yards >= -20 && yards <= 99 ? yards : null;
}
