import { useEffect, useMemo, useRef } from 'react';
import { useVirtualizer } from '@tanstack/react-virtual';
import { scaleLinear } from 'd3-scale';
import type { Part, Play } from '../../contract/rows.ts';
import { runInWords, situationInWords } from '../../contract/play-in-words.ts';
import { useSize } from '../kit/use-size.ts';
import { usePlace } from '../link/place.ts';
import { carryFigures } from './figures.ts';
import { playFilter } from './filter.ts';
import { showPlay, useStage } from './stage-store.ts';

const rowHeight = 12;
const yardLines = Array.from({ length: 21 }, (_, index) => index * 5);
const lineName = (spot: number): string => (spot === 0 || spot === 100 ? 'G' : String(spot <= 50 ? spot : 100 - spot));

type Row = { readonly play: Play; readonly part: Part | null; readonly series: number | null; readonly place: number };

/** The game as a field: a bar a play from where it began to where it ended, rows by series; the list and the chart at once. */
export function FieldStrip() {
  const game = useStage((stage) => stage.game);
  const filter = useStage((stage) => stage.filter);
  const folded = useStage((stage) => stage.stripFolded);
  const together = useStage((stage) => stage.together);
  const playId = usePlace((place) => place.playId);
  const directory = usePlace((place) => place.directory);
  const settings = directory?.settings ?? [];
  const place = useRef<HTMLDivElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const { width } = useSize(place);
  const rows = useMemo<readonly Row[]>(() => {
    if (game === null) return [];
    const fits = playFilter(filter);
    const parts = new Map<string, Part>();
    for (const part of game.parts) if (part.kind === 'run' || !parts.has(part.playId)) parts.set(part.playId, part);
    return game.plays
      .map((play, index) => ({ play, part: parts.get(play.id) ?? null, series: play.series, place: index + 1 }))
      .filter(({ play, part }) => fits(play, part));
  }, [game, filter]);
  const marked = useMemo(() => {
    const counts = new Map<string, number>();
    for (const mark of game?.marks ?? []) counts.set(mark.partId, (counts.get(mark.partId) ?? 0) + 1);
    return counts;
  }, [game]);
  const chosen = rows.find(({ play }) => play.id === playId);
  const x = scaleLinear([0, 100], [24, Math.max(60, width - 24)]);
  const shown = folded ? rows.filter(({ play }) => play.id === playId) : rows;
  const inView = useVirtualizer({
    count: shown.length,
    getScrollElement: () => list.current,
    estimateSize: () => rowHeight,
    overscan: 12,
  });
  useEffect(() => {
    const box = list.current;
    const at = shown.findIndex(({ play }) => play.id === playId);
    if (box === null || at < 0) return;
    const top = at * rowHeight;
    if (top < box.scrollTop + rowHeight || top > box.scrollTop + box.clientHeight - 2 * rowHeight) {
      box.scrollTop = Math.max(0, top - box.clientHeight / 2);
    }
  }, [playId, shown]);
  const series = new Set(game?.plays.map((play) => play.series));
  const lineToGain =
    chosen === undefined || chosen.play.spot === null || chosen.play.toGo === null
      ? null
      : chosen.play.spot + chosen.play.toGo;
  return (
    <section className="strip" ref={place} aria-label="Field strip" data-folded={folded}>
      <svg className="strip-scale" width={width} height={20} aria-hidden>
        {yardLines
          .filter((spot) => spot % 10 === 0)
          .map((spot) => (
            <text key={spot} x={x(spot)} y={14} textAnchor="middle">
              {lineName(spot)}
            </text>
          ))}
      </svg>
      <div className="strip-list" ref={list} role="listbox" aria-label="Plays" tabIndex={0}>
        <svg width={width} height={Math.max(1, shown.length) * rowHeight + 4} role="presentation">
          {yardLines.map((spot) => (
            <line key={spot} className={spot % 10 === 0 ? 'ten' : 'five'} x1={x(spot)} x2={x(spot)} y1={0} y2="100%" />
          ))}
          {lineToGain === null || lineToGain > 100 ? null : (
            <line className="line-to-gain" x1={x(lineToGain)} x2={x(lineToGain)} y1={0} y2="100%" />
          )}
          {inView.getVirtualItems().map(({ index, start }) => {
            const row = shown[index];
            return row === undefined ? null : (
              <PlayBar
                key={row.play.id}
                row={row}
                y={start}
                x={x}
                chosen={row.play.id === playId || together.includes(row.play.id)}
                marks={row.part === null ? 0 : (marked.get(row.part.id) ?? 0)}
                settings={settings}
                width={width}
                last={shown[index - 1]?.series}
              />
            );
          })}
        </svg>
      </div>
      <p className="strip-foot">
        {rows.length === 0 && game !== null && game.plays.length > 0
          ? 'no play fits the filter'
          : `${chosen?.play.series === null || chosen === undefined ? '' : `series ${chosen.play.series} of ${series.size} · `}${rows.length === game?.plays.length ? `${rows.length} plays` : `${rows.length} of ${game?.plays.length ?? 0} plays`} · bar = gain, lighter after contact · tick = expected · ✓ = success · dots = marks · ⚑ = come back`}
      </p>
    </section>
  );
}

/** Chooses all plays from the chosen one to this one together. */
function chooseUpTo(playId: string): void {
  const plays = useStage.getState().game?.plays ?? [];
  const ends = [usePlace.getState().playId, playId]
    .map((id) => plays.findIndex((play) => play.id === id))
    .toSorted((a, b) => a - b);
  const [first = 0, last = 0] = ends;
  useStage.setState({ together: plays.slice(Math.max(0, first), last + 1).map(({ id }) => id) });
}

type BarProps = {
  row: Row;
  y: number;
  x: (spot: number) => number;
  chosen: boolean;
  marks: number;
  settings: Parameters<typeof carryFigures>[2];
  width: number;
  last: number | null | undefined;
};

function PlayBar({ row, y, x, chosen, marks, settings, width, last }: BarProps) {
  const { play, part } = row;
  const spot = play.spot ?? 50;
  const gain = part?.gain ?? play.gain;
  const end = Math.max(-9, spot + (gain ?? 0));
  const contact = part?.contactAt ?? null;
  const contactSpot =
    contact === null || gain === null || gain < 0 ? null : Math.min(end, Math.max(spot, spot + contact));
  const figures = part === null ? null : carryFigures(play, part, settings);
  const expected = figures?.known === true ? spot + figures.value.expected : null;
  const success = figures?.known === true && figures.value.success === true;
  const middle = y + rowHeight / 2;
  const label = `${play.down ?? '–'} & ${play.toGo ?? '–'}`;
  const words = `Play ${row.place}. ${situationInWords(play)}. ${runInWords(play, part)}`;
  const left = Math.min(x(spot), x(end));
  const right = Math.max(x(spot), x(end), expected === null ? 0 : x(expected));
  return (
    <g
      className="play"
      role="option"
      aria-selected={chosen}
      aria-label={`${label}. ${words}`}
      data-play={play.id}
      onClick={(event) => (event.shiftKey ? chooseUpTo(play.id) : showPlay(play.id))}
    >
      <title>{words}</title>
      <rect className="hit" x={0} y={y} width={Math.max(0, width)} height={rowHeight} />
      {last !== undefined && last !== row.series ? (
        <line className="series-line" x1={0} x2={width} y1={y + 0.5} y2={y + 0.5} />
      ) : null}
      {chosen ? (
        <rect className="chosen" x={left - 46} y={y + 0.5} width={right - left + 92} height={rowHeight - 1} rx={3} />
      ) : null}
      <text className="situation" x={left - 6} y={middle + 3.5} textAnchor="end">
        {label}
      </text>
      {play.spot === null || gain === null ? (
        <circle className="uncharted" cx={x(spot)} cy={middle} r={2.5} />
      ) : gain < 0 ? (
        <rect className="loss" x={x(end)} y={middle - 2.5} width={Math.max(2, x(spot) - x(end))} height={5} />
      ) : (
        <>
          <rect
            className={part === null || part.kind !== 'run' ? 'gain other' : 'gain'}
            x={x(spot)}
            y={middle - 3}
            width={Math.max(1.5, x(end) - x(spot))}
            height={6}
            rx={1}
          />
          {contactSpot === null ? null : (
            <rect
              className="after"
              x={x(contactSpot)}
              y={middle - 3}
              width={Math.max(0, x(end) - x(contactSpot))}
              height={6}
              rx={1}
            />
          )}
        </>
      )}
      {expected === null ? null : (
        <line className="expected" x1={x(expected)} x2={x(expected)} y1={y + 1.5} y2={y + rowHeight - 1.5} />
      )}
      <text className="signs" x={right + 8} y={middle + 3.5}>
        {success ? <tspan className="success">✓ </tspan> : null}
        {marks > 0 ? <tspan className="dots">{'•'.repeat(Math.min(6, Math.ceil(marks / 4)))} </tspan> : null}
        {part?.comeBack === true ? <tspan className="flag">⚑</tspan> : null}
      </text>
    </g>
  );
}
