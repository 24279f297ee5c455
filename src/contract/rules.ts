/**
 * What can't be, and what is doubtful, in a row: the same sentences for the blank being filled and for the study that
 * refuses the change. "Impossible" is refused; "doubtful" is asked and kept.
 */
import type { Row, TableName } from './rows.ts';

/** One thing wrong with a row: the column it stands at, how bad, and a sentence (what, wanted, got). */
export type Problem = { readonly column: string; readonly weight: 'impossible' | 'doubtful'; readonly says: string };

const impossible = (column: string, says: string): Problem => ({ column, weight: 'impossible', says });
const doubtful = (column: string, says: string): Problem => ({ column, weight: 'doubtful', says });

/** Names a spot in words: "own 34", "opponent 7", "midfield". Spot is 1-99 yards from the offence's own goal line. */
export function spotInWords(spot: number): string {
  if (spot === 50) return 'midfield';
  return spot < 50 ? `own ${spot}` : `opponent ${100 - spot}`;
}

function playProblems(play: Row<'play'>): Problem[] {
  const found: Problem[] = [];
  const { down, toGo, spot, gain } = play;
  const yardsToGoal = spot === null ? null : 100 - spot;
  if (toGo !== null && yardsToGoal !== null && toGo > yardsToGoal) {
    found.push(
      impossible(
        'toGo',
        `To go can't be longer than the way to the goal line: at the ${spotInWords(100 - yardsToGoal)} it is at most ${yardsToGoal}, got ${toGo}.`,
      ),
    );
  }
  if (gain !== null && yardsToGoal !== null && gain > yardsToGoal) {
    found.push(
      impossible(
        'gain',
        `The goal line is ${yardsToGoal} yards away, so the gain can be at most ${yardsToGoal}, got ${gain}.`,
      ),
    );
  }
  if (gain !== null && spot !== null && gain < -spot - 10) {
    found.push(impossible('gain', `A loss can't go past the own end line: at most ${spot + 10} yards, got ${-gain}.`));
  }
  if (play.result === 'touchdown' && gain !== null && yardsToGoal !== null && gain !== yardsToGoal) {
    found.push(doubtful('result', `A touchdown from here gains ${yardsToGoal}; the gain charted is ${gain}.`));
  }
  if (down !== null && toGo !== null && spot !== null) {
    // A series starts at least as far from the own goal line as its line to gain less ten.
    if (down === 1 && toGo < 10 && toGo < 100 - spot) {
      found.push(doubtful('toGo', `First down with ${toGo} to go away from the goal line is rare; is it right?`));
    }
    if (toGo > 25 && down > 1) {
      found.push(
        doubtful(
          'toGo',
          `${toGo} to go means ${toGo - 10} yards lost in this series, at the ${spotInWords(spot)}; is it right?`,
        ),
      );
    }
  }
  if (play.clockSeconds !== null && play.quarter !== null && play.quarter > 4 && play.clockSeconds > 600) {
    found.push(doubtful('clockSeconds', 'An overtime period with more than ten minutes left is rare; is it right?'));
  }
  return found;
}

function partProblems(part: Row<'part'>): Problem[] {
  const found: Problem[] = [];
  if (part.contactAt !== null && part.gain !== null && part.contactAt > part.gain) {
    found.push(
      doubtful(
        'contactAt',
        `First contact ${part.contactAt} yards past the line on a gain of ${part.gain}: pushed back after contact?`,
      ),
    );
  }
  if (!part.counts && part.countsBecause === null) {
    found.push(doubtful('countsBecause', 'This part is left out of the results without a reason; say why.'));
  }
  return found;
}

function markProblems(mark: Row<'mark'>): Problem[] {
  if (mark.state === 'shown' && mark.value === null) {
    return [impossible('value', 'A trait that is shown needs a mark from 1 to 5, got none.')];
  }
  if (mark.state !== 'shown' && mark.value !== null) {
    return [impossible('value', `A trait that is ${mark.state} carries no figure, got ${mark.value}.`)];
  }
  return [];
}

/** Lists what is impossible or doubtful in one row of the named table; an empty list when all is well. */
export function problemsOf<Name extends TableName>(table: Name, row: Row<Name>): readonly Problem[] {
  const anyRow: Row<TableName> = row;
  switch (table) {
    case 'play':
      return playProblems(anyRow as Row<'play'>);
    case 'part':
      return partProblems(anyRow as Row<'part'>);
    case 'mark':
      return markProblems(anyRow as Row<'mark'>);
    case 'span': {
      const span = anyRow as Row<'span'>;
      return span.outFrame <= span.inFrame
        ? [
            impossible(
              'outFrame',
              `A span must end after it begins: in at frame ${span.inFrame}, out at ${span.outFrame}.`,
            ),
          ]
        : [];
    }
    case 'lane': {
      const lane = anyRow as Row<'lane'>;
      return lane.low <= lane.likely && lane.likely <= lane.high
        ? []
        : [impossible('likely', `A lane's yards go low, likely, high; got ${lane.low}, ${lane.likely}, ${lane.high}.`)];
    }
    case 'chalk': {
      const chalk = anyRow as Row<'chalk'>;
      return chalk.toFrame < chalk.fromFrame
        ? [impossible('toFrame', `Chalk must end after it begins: from frame ${chalk.fromFrame} to ${chalk.toFrame}.`)]
        : [];
    }
    case 'game': {
      const game = anyRow as Row<'game'>;
      return game.homeTeamId === game.awayTeamId ? [impossible('awayTeamId', 'A game needs two different teams.')] : [];
    }
    default:
      return [];
  }
}
