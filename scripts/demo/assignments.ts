import type { BlockResult, DefenceSlot, OffenceSlot, PlayScript } from './play-script.ts';

/** One block: who takes whom, how it goes, and what the blocker does first (a puller crosses behind the line). */
export type Block = {
  readonly blocker: OffenceSlot;
  readonly defender: DefenceSlot;
  readonly result: BlockResult;
  readonly manner: 'base' | 'climb' | 'pull' | 'kick' | 'stalk' | 'set' | 'back';
};

type Task = readonly [OffenceSlot, DefenceSlot, Block['manner']];

function runTasks(play: PlayScript): readonly Task[] {
  const two = play.personnel === '12';
  const fullback = play.personnel === '21' || play.personnel === '22';
  const heavy = play.personnel === '22';
  const yPlay = play.tightEnd === 'play side';
  const yTask: Task = yPlay ? ['Y', 'DEp', 'base'] : ['Y', 'DEb', 'base'];
  const hZone: Task = ((): Task => {
    if (two) return yPlay ? ['H', 'DEb', 'base'] : ['H', 'DEp', 'base'];
    return fullback ? ['H', 'SAM', 'climb'] : ['H', 'SAM', 'stalk'];
  })();
  const outside: readonly Task[] = [['Z', 'CBz', 'stalk'], ...(heavy ? [] : ([['X', 'CBx', 'stalk']] as const))];
  switch (play.concept ?? 'none') {
    case 'inside zone':
    case 'outside zone': {
      const sealed = two || !yPlay;
      return [
        yTask,
        hZone,
        ['PG', 'DTp', 'base'],
        ['C', 'NT', 'base'],
        yPlay || two ? ['PT', play.personnel === '11' ? 'MIKE' : 'SAM', 'climb'] : ['PT', 'DEp', 'base'],
        ['BG', play.personnel === '11' ? 'WILL' : 'MIKE', 'climb'],
        sealed ? ['BT', 'WILL', 'climb'] : ['BT', 'DEb', 'base'],
        ...outside,
      ];
    }
    case 'power':
      return [
        ['PT', 'DTp', 'base'],
        ['PG', 'WILL', 'climb'],
        ['C', 'NT', 'base'],
        ['Y', 'MIKE', 'climb'],
        ['H', 'DEp', 'kick'],
        ['BG', 'SAM', 'pull'],
        ['BT', 'DEb', 'base'],
        ...outside,
      ];
    case 'counter':
      return [
        ['PT', 'DTp', 'base'],
        ['PG', 'NT', 'base'],
        ['C', 'WILL', 'climb'],
        ['Y', 'MIKE', 'climb'],
        ['BG', 'DEp', 'kick'],
        ['H', 'SAM', 'pull'],
        ['BT', 'DEb', 'base'],
        ...outside,
      ];
    case 'toss':
      return [
        ['Y', 'DEp', 'base'],
        ['PT', 'SAM', 'pull'],
        ['PG', 'MIKE', 'pull'],
        ['C', 'DTp', 'base'],
        ['BG', 'NT', 'base'],
        ['BT', 'DEb', 'base'],
        ['H', 'SS', 'climb'],
        ...outside,
      ];
    case 'draw':
    case 'none':
      break;
  }
  return [
    ['PT', 'DEp', 'set'],
    ['PG', 'DTp', 'set'],
    ['C', 'NT', 'set'],
    ['BG', 'WILL', play.pass ? 'set' : 'climb'],
    ['BT', 'DEb', 'set'],
    ...(play.pass ? [] : ([...(play.box >= 7 ? ([['Y', 'SAM', 'climb']] as const) : []), ...outside] as const)),
  ];
}

/** The blocks of a play, drawn up to the right; a defender not named here is free. */
export function blocksOf(play: PlayScript): readonly Block[] {
  const tasks = runTasks(play).filter(
    ([, defender]) => !(play.pass && defender === 'WILL' && play.pass.blitz !== 'WILL'),
  );
  const taken = new Set<DefenceSlot>();
  const blocks: Block[] = [];
  for (const [blocker, defender, manner] of tasks) {
    const blitzer = play.pass?.blitz === defender;
    if (taken.has(defender) || blitzer) continue;
    taken.add(defender);
    blocks.push({ blocker, defender, manner, result: play.blocks?.[defender] ?? 'stalemate' });
  }
  return blocks;
}
