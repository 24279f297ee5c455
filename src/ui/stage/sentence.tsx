import { useEffect, useRef, useState, type KeyboardEvent } from 'react';
import { set, type ChangeStep } from '../../contract/changes.ts';
import type { Part, Play } from '../../contract/rows.ts';
import { problemsOf } from '../../contract/rules.ts';
import { isWithheld } from '../../contract/sealed-game.ts';
import { nextSnap } from '../../core/plays/next-play.ts';
import { usePlace } from '../link/place.ts';
import type { Blank } from './blank.ts';
import { blanks } from './blanks.ts';
import { isComplete, readBlank, writeBlank, type BlankContext, type BlankValue } from './blank-text.ts';
import { changeStage, chosenOf, useStage } from './stage-store.ts';

type Ghosts = Readonly<Partial<Record<string, BlankValue>>>;

const schemeOf: Readonly<Record<string, 'zone' | 'gap'>> = {
  'inside zone': 'zone',
  'outside zone': 'zone',
  power: 'gap',
  counter: 'gap',
  trap: 'gap',
  duo: 'gap',
  lead: 'gap',
};

/** What the play before lets one expect here; shown pale until it is taken. */
function ghostsFor(play: Play, before: Play | undefined): Ghosts {
  if (before === undefined) return {};
  const next = nextSnap(before);
  const same = next !== null && (play.offenceTeamId === null || play.offenceTeamId === before.offenceTeamId);
  return {
    ...(same ? { down: next.down, toGo: next.toGo, spot: next.spot } : {}),
    hash: before.hash,
    quarter: before.quarter,
  };
}

/** The chart of one play as a line of plain words whose blanks are filled in place. */
export function Sentence() {
  const game = useStage((stage) => stage.game);
  const spanId = useStage((stage) => stage.spanId);
  const unfolded = useStage((stage) => stage.unfolded);
  const focusBlank = useStage((stage) => stage.focusBlank);
  const together = useStage((stage) => stage.together);
  const sealed = useStage((stage) => stage.seal !== null);
  const playId = usePlace((place) => place.playId);
  const directory = usePlace((place) => place.directory);
  const line = useRef<HTMLDivElement>(null);
  const { play, part } = chosenOf(game, playId, spanId);
  useEffect(() => {
    if (focusBlank === null) return;
    const all = [...(line.current?.querySelectorAll('input') ?? [])];
    const wanted =
      focusBlank === 'first empty'
        ? (all.find((input) => input.dataset['core'] === 'yes' && input.value === '') ?? all[0])
        : all.find((input) => input.name === focusBlank);
    if (wanted !== undefined) {
      wanted.focus();
      useStage.setState({ focusBlank: null });
    }
  }, [focusBlank, playId, unfolded]);
  if (game === null || play === null) {
    return (
      <p className="sentence muted">
        No play is chosen. Mark where one begins with <kbd>I</kbd> and where it ends with <kbd>O</kbd>, and its sentence
        stands here.
      </p>
    );
  }
  const place = game.plays.findIndex(({ id }) => id === play.id);
  const ghosts = ghostsFor(play, game.plays[place - 1]);
  const context: BlankContext = {
    runners: directory?.runners ?? [],
    spot: play.spot ?? (typeof ghosts['spot'] === 'number' ? ghosts['spot'] : null),
    toGo: play.toGo,
  };
  const shown = blanks.filter((blank) => {
    if (blank.table === 'part' && part === null) return false;
    if (sealed && isWithheld(blank.table, blank.column)) return false;
    return blank.core || unfolded || isTold(blank, play, part);
  });
  return (
    <div className="sentence" ref={line} role="group" aria-label="Play sentence">
      {shown.map((blank, index) => (
        <BlankInput
          key={`${play.id} ${blank.name}`}
          blank={blank}
          play={play}
          part={part}
          ghosts={ghosts}
          context={context}
          clause={blank.startsClause && index > 0}
        />
      ))}
      <button
        type="button"
        className="more"
        aria-expanded={unfolded}
        onClick={() => useStage.setState({ unfolded: !unfolded })}
      >
        {unfolded ? 'fewer blanks' : 'more blanks'}
      </button>
      {together.length > 1 ? (
        <p className="together">
          {together.length} plays chosen together: what you fill is set on all of them. Esc chooses one again.
        </p>
      ) : null}
      <Doubts play={play} part={part} />
    </div>
  );
}

function valueOf(blank: Blank, play: Play, part: Part | null): BlankValue {
  const row: Readonly<Record<string, unknown>> = blank.table === 'play' ? play : (part ?? {});
  const value = row[blank.column];
  return typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null;
}

/** A telling blank that says more than the ordinary stands open; an ordinary value goes without saying. */
function isTold(blank: Blank, play: Play, part: Part | null): boolean {
  const value = valueOf(blank, play, part);
  return blank.telling && value !== null && !blank.ordinary.includes(value);
}

function Doubts({ play, part }: { play: Play; part: Part | null }) {
  const doubts = [...problemsOf('play', play), ...(part === null ? [] : problemsOf('part', part))];
  if (doubts.length === 0) return null;
  return (
    <p className="doubts" role="note">
      {doubts.map(({ says }) => says).join(' ')}
    </p>
  );
}

/** The steps that give a blank its value, with what follows from it by rule. */
function stepsFor(blank: Blank, value: BlankValue, play: Play, part: Part | null, ghosts: Ghosts): ChangeStep[] {
  const change: Record<string, unknown> = { [blank.column]: value };
  const steps: ChangeStep[] = [];
  if (blank.table === 'play') {
    if (blank.column === 'spot' && typeof value === 'number') {
      const toGo = play.toGo;
      if (toGo !== null && toGo > 100 - value) change['toGo'] = 100 - value;
    }
    if (blank.column === 'concept' && typeof value === 'string' && play.scheme === null)
      change['scheme'] = schemeOf[value] ?? 'other';
    if (blank.column === 'gain') {
      for (const [column, ghost] of Object.entries(ghosts)) {
        if (valueOf({ ...blank, column }, play, part) === null && ghost !== null && ghost !== undefined)
          change[column] = ghost;
      }
      const spot = play.spot ?? Number(ghosts['spot'] ?? Number.NaN);
      if (play.result === null && typeof value === 'number')
        change['result'] = value === 100 - spot ? 'touchdown' : 'down';
      if (part !== null && part.kind === 'run')
        steps.push(set('part', part.id, { gain: typeof value === 'number' ? value : null }));
    }
    steps.unshift(set('play', play.id, change as Partial<Play>));
  } else if (part !== null) {
    steps.push(set('part', part.id, change as Partial<Part>));
  }
  return steps;
}

/** Where plays are chosen together, the same value on each of the others. */
function onTheOthers(blank: Blank, value: BlankValue, play: Play): ChangeStep[] {
  const { game, together } = useStage.getState();
  if (game === null) return [];
  return together
    .filter((id) => id !== play.id)
    .flatMap((id) => {
      const other = game.plays.find((each) => each.id === id);
      const parts = game.parts.filter((part) => part.playId === id);
      return other === undefined
        ? []
        : stepsFor(blank, value, other, parts.find(({ kind }) => kind === 'run') ?? parts[0] ?? null, {});
    });
}

type BlankProps = {
  blank: Blank;
  play: Play;
  part: Part | null;
  ghosts: Ghosts;
  context: BlankContext;
  clause: boolean;
};

function BlankInput({ blank, play, part, ghosts, context, clause }: BlankProps) {
  const value = valueOf(blank, play, part);
  const ghost = value === null && blank.table === 'play' ? (ghosts[blank.column] ?? null) : null;
  const standing = writeBlank(blank, value ?? ghost, context);
  const [typed, setTyped] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const input = useRef<HTMLInputElement>(null);
  // What is typed and not yet kept. A blank that is complete moves the focus on before it is drawn again, so the blur
  // must not see the text of the drawing before.
  const pending = useRef<string | null>(null);
  const hintId = `hint ${blank.name}`.replaceAll(' ', '-');
  const { takes } = blank;
  const [singular = '', plural = singular] = blank.after.split('|');
  const after = value === 1 ? singular : plural;

  /** Keeps what stands in the blank; true when the focus may move on. */
  const keep = (text: string): boolean => {
    const untouched = text === standing;
    const read = untouched ? { known: true as const, value: value ?? ghost } : readBlank(blank, text, context);
    if (!read.known) {
      setTrouble(read.detail);
      return false;
    }
    if (read.value === value) {
      pending.current = null;
      setTyped(null);
      setTrouble(null);
      return true;
    }
    const steps = stepsFor(blank, read.value, play, part, ghosts);
    const worst = steps
      .flatMap((step) => {
        if (step.do !== 'set') return [];
        return step.table === 'play'
          ? problemsOf('play', { ...play, ...step.set })
          : part === null
            ? []
            : problemsOf('part', { ...part, ...step.set });
      })
      .find(({ weight }) => weight === 'impossible');
    if (worst !== undefined) {
      setTrouble(worst.says);
      return false;
    }
    pending.current = null;
    setTyped(null);
    setTrouble(null);
    void changeStage(`${blank.name}: ${writeBlank(blank, read.value, context) || 'emptied'}`, [
      ...steps,
      ...onTheOthers(blank, read.value, play),
    ]);
    return true;
  };
  const move = (by: 1 | -1): void => {
    const all = [...(input.current?.closest('.sentence')?.querySelectorAll<HTMLElement>('input, .more') ?? [])];
    const here = input.current === null ? -1 : all.indexOf(input.current);
    all[here + by]?.focus();
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    const text = typed ?? standing;
    if (event.key === 'Enter') {
      event.preventDefault();
      if (keep(text)) {
        if (blank.column === 'gain') input.current?.blur();
        else move(1);
      }
    } else if (event.key === 'Tab') {
      event.preventDefault();
      if (keep(text)) move(event.shiftKey ? -1 : 1);
    } else if (event.key === 'Escape') {
      event.preventDefault();
      pending.current = null;
      setTyped(null);
      setTrouble(null);
      // The blur that follows must find nothing to keep.
      requestAnimationFrame(() => input.current?.blur());
    }
  };
  return (
    <span className={clause ? 'blank clause' : 'blank'}>
      {clause ? (
        <span className="dot" aria-hidden>
          ·{' '}
        </span>
      ) : null}
      {blank.before === '' ? null : <span className="joins">{blank.before} </span>}
      <span className="blank-place">
        <input
          ref={input}
          name={blank.name}
          aria-label={blank.name}
          aria-describedby={hintId}
          aria-invalid={trouble !== null}
          autoComplete="off"
          spellCheck={false}
          data-core={blank.core ? 'yes' : 'no'}
          className={value === null && ghost !== null ? 'ghost' : value === null ? 'empty-blank' : ''}
          placeholder={blank.name}
          value={typed ?? standing}
          onFocus={(event) => event.target.select()}
          onChange={(event) => {
            const text = event.target.value;
            pending.current = text;
            setTyped(text);
            setTrouble(null);
            if (isComplete(blank, text) && keep(text)) move(1);
          }}
          onBlur={() => {
            const text = pending.current;
            if (text !== null && !keep(text)) setTyped(text);
          }}
          onKeyDown={onKeyDown}
        />
        <span
          className={trouble === null ? 'blank-hint' : 'blank-hint trouble'}
          id={hintId}
          role={trouble === null ? undefined : 'alert'}
        >
          {trouble ??
            (takes.kind === 'choice'
              ? takes.choices.map(({ value: word, letter }) => (
                  <span key={word} className="choice">
                    <kbd>{letter}</kbd> {word}
                  </span>
                ))
              : blank.hint)}
        </span>
      </span>
      {after === '' ? null : <span className="joins">{after}</span>}
    </span>
  );
}
