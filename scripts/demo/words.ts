import type { PlayScript, Slot } from './play-script.ts';

const PLAIN: Partial<Record<Slot, string>> = {
  C: 'centre',
  QB: 'quarterback',
  RB: 'runner',
  MIKE: 'middle linebacker',
  FS: 'free safety',
  SS: 'strong safety',
};

/** A slot in plain words, sides as the offence faces. */
export function slotWords(slot: Slot, play: PlayScript): string {
  const plain = PLAIN[slot];
  if (plain) return plain;
  const far = play.side;
  const near = play.side === 'right' ? 'left' : 'right';
  const y = play.tightEnd === 'play side' ? far : near;
  switch (slot) {
    case 'PG':
      return `${far} guard`;
    case 'BG':
      return `${near} guard`;
    case 'PT':
      return `${far} tackle`;
    case 'BT':
      return `${near} tackle`;
    case 'Y':
      return `${y} tight end`;
    case 'H':
      if (play.personnel === '11') return 'slot receiver';
      return play.personnel === '12' ? `${y === 'left' ? 'right' : 'left'} tight end` : 'fullback';
    case 'X':
      return play.personnel === '22' ? `${y === 'left' ? 'right' : 'left'} tight end` : `${near} wide receiver`;
    case 'Z':
      return `${far} wide receiver`;
    case 'DEp':
      return `${far} end`;
    case 'DTp':
      return `${far} tackle (defence)`;
    case 'NT':
      return 'nose tackle';
    case 'DEb':
      return `${near} end`;
    case 'WILL':
      return `${near} outside linebacker`;
    case 'SAM':
      return play.box === 6 ? 'nickel back' : `${far} outside linebacker`;
    case 'CBx':
      return `${near} cornerback`;
    case 'CBz':
      return `${far} cornerback`;
    case 'C':
    case 'QB':
    case 'RB':
    case 'MIKE':
    case 'FS':
    case 'SS':
      break;
  }
  return slot;
}
