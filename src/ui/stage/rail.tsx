import { scaleLinear } from 'd3-scale';
import { useEffect, useMemo, useRef, useState, type PointerEvent } from 'react';
import { CutMarks } from './cuts/cut-marks.tsx';
import { zoomedView } from './rail-view.ts';
import type { Film, Moment } from '../../contract/rows.ts';
import { useSize } from '../kit/use-size.ts';
import { usePlace } from '../link/place.ts';
import { markInWords } from './marking.ts';
import { moveMoment } from './moments.ts';
import { chosenOf, useStage } from './stage-store.ts';

const margin = 24;
const pinRow = 17;
const axis = 68;

/** The span's frames as an axis that zooms: moments, feet, chalk, in and out, and marks as pins where they were given. */
export function Rail({ film }: { film: Film }) {
  const { game, spanId, frame, inPoint, tables, trait } = useStage();
  const { playId, evaluatorId, directory } = usePlace();
  const { span, part } = chosenOf(game, playId, spanId);
  const place = useRef<HTMLDivElement>(null);
  const { width } = useSize(place);
  const table = tables[film.id];
  const last = film.frames - 1;
  const home = useMemo<readonly [number, number]>(() => {
    if (span === null || span.filmId !== film.id) return [0, last];
    const edge = Math.round((span.outFrame - span.inFrame) * 0.04) + 2;
    return [Math.max(0, span.inFrame - edge), Math.min(last, span.outFrame + edge)];
  }, [span, film.id, last]);
  const zoomed = useStage((stage) => stage.railView);
  useEffect(() => useStage.setState({ railView: null }), [home]);
  const view = zoomed ?? home;
  // The playhead never leaves the view: stepping past its edge moves the view along.
  const [from, to] = frame < view[0] || frame > view[1] ? centred(frame, view[1] - view[0], last) : view;
  const x = scaleLinear([from, to], [margin, Math.max(margin + 1, width - margin)]);
  const [dragged, setDragged] = useState<{ readonly id: string; readonly frame: number } | null>(null);
  const rate = film.rate;
  const origin = span !== null && span.filmId === film.id ? span.inFrame : 0;
  const seconds = (index: number): number => (table === undefined ? index / rate : (table.times[index] ?? 0));
  const letters = new Map(
    (directory?.rubricVersions.at(-1)?.body.families ?? []).flatMap((family) =>
      family.traits.map((each) => [each.key, each.name] as const),
    ),
  );
  const toFrame = (event: PointerEvent<SVGSVGElement>): number => {
    const left = event.currentTarget.getBoundingClientRect().left;
    return Math.round(Math.min(last, Math.max(0, x.invert(event.clientX - left))));
  };
  const moments = game?.moments.filter((moment) => moment.spanId === spanId) ?? [];
  const steps = game?.steps.filter((step) => step.spanId === spanId) ?? [];
  const pins = (game?.marks ?? []).filter(
    (mark) => mark.partId === part?.id && mark.spanId === spanId && mark.frame !== null && mark.lookId === null,
  );
  const chalk = game?.chalk.filter((each) => each.spanId === spanId) ?? [];
  const labelled = placeLabels(
    moments.map((moment) => (moment.id === dragged?.id ? { ...moment, frame: dragged.frame } : moment)),
    x,
  );
  const tickEvery = niceTick((to - from) / Math.max(1, width / 9));
  const labelEvery = niceSeconds(
    (seconds(Math.min(last, Math.round(to))) - seconds(Math.max(0, Math.round(from)))) / Math.max(1, width / 130),
  );
  const ticks: number[] = [];
  for (let index = Math.ceil(from / tickEvery) * tickEvery; index <= to; index += tickEvery) ticks.push(index);
  const labels: { at: number; words: string }[] = [];
  const zero = seconds(origin);
  const firstLabel = Math.ceil((seconds(Math.max(0, Math.round(from))) - zero) / labelEvery) * labelEvery;
  for (let second = firstLabel; second <= seconds(Math.round(to)) - zero; second += labelEvery) {
    labels.push({ at: origin + second * rate, words: `${second.toFixed(labelEvery < 1 ? 1 : 0)} s` });
  }
  return (
    <div className="rail" ref={place} data-from={Math.round(from)} data-to={Math.round(to)}>
      <svg
        width={width}
        height={102}
        role="slider"
        tabIndex={0}
        aria-label="Frames of the span"
        aria-valuemin={0}
        aria-valuemax={last}
        aria-valuenow={frame}
        aria-valuetext={`frame ${frame}, ${seconds(frame).toFixed(3)} seconds`}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId);
          useStage.setState({ frame: toFrame(event), playing: false });
        }}
        onPointerMove={(event) => {
          if (event.currentTarget.hasPointerCapture(event.pointerId)) useStage.setState({ frame: toFrame(event) });
        }}
        onWheel={(event) =>
          useStage.setState({ railView: zoomedView([from, to], event.deltaY > 0 ? 1.25 : 0.8, frame, last) })
        }
      >
        {span === null || span.filmId !== film.id ? null : (
          <>
            <rect className="outside" x={0} y={0} width={Math.max(0, x(span.inFrame))} height={102} />
            <rect
              className="outside"
              x={x(span.outFrame)}
              y={0}
              width={Math.max(0, width - x(span.outFrame))}
              height={102}
            />
          </>
        )}
        {inPoint === null ? null : (
          <rect
            className="new-span"
            x={Math.min(x(inPoint), x(frame))}
            y={axis - 8}
            width={Math.abs(x(frame) - x(inPoint))}
            height={16}
          />
        )}
        {chalk.map((each) => (
          <rect
            key={each.id}
            className="chalk-span"
            x={x(each.fromFrame)}
            y={axis + 12}
            width={Math.max(2, x(each.toFrame) - x(each.fromFrame))}
            height={3}
          />
        ))}
        <CutMarks filmId={film.id} x={x} />
        {ticks.map((index) => (
          <line
            key={index}
            className={index % (tickEvery * 5) === 0 ? 'tick tall' : 'tick'}
            x1={x(index)}
            x2={x(index)}
            y1={axis}
            y2={axis - (index % (tickEvery * 5) === 0 ? 8 : 4)}
          />
        ))}
        {labels.map(({ at, words }) => (
          <text key={words} className="seconds" x={x(at)} y={97} textAnchor="middle">
            {words}
          </text>
        ))}
        {labelled.map(({ moment, row }) => (
          <g
            key={moment.id}
            className="moment"
            data-moment={moment.name}
            data-frame={moment.frame}
            onPointerDown={(event) => {
              event.stopPropagation();
              event.currentTarget.setPointerCapture(event.pointerId);
              setDragged({ id: moment.id, frame: moment.frame });
            }}
            onPointerMove={(event) => {
              if (dragged?.id !== moment.id) return;
              const left = place.current?.getBoundingClientRect().left ?? 0;
              const at = Math.round(
                Math.min(span?.outFrame ?? last, Math.max(span?.inFrame ?? 0, x.invert(event.clientX - left))),
              );
              setDragged({ id: moment.id, frame: at });
              useStage.setState({ frame: at, playing: false });
            }}
            onPointerUp={() => {
              if (dragged?.id === moment.id) moveMoment(moment.id, dragged.frame);
              setDragged(null);
            }}
            onPointerCancel={() => setDragged(null)}
          >
            <line x1={x(moment.frame)} x2={x(moment.frame)} y1={30} y2={axis} />
            <text x={x(moment.frame) + 4} y={39 + row * 11}>
              {moment.name}
            </text>
          </g>
        ))}
        {steps.map((step) => (
          <path key={step.id} className="foot" d={foot(x(step.frame), step.foot)}>
            <title>{`${step.foot} foot, frame ${step.frame}`}</title>
          </path>
        ))}
        {pins.map((mark) => (
          <g
            key={mark.id}
            className={mark.evaluatorId === evaluatorId ? 'pin' : 'pin other'}
            data-asked={mark.trait === trait}
          >
            <line x1={x(mark.frame ?? 0)} x2={x(mark.frame ?? 0)} y1={pinRow} y2={axis} />
            <circle cx={x(mark.frame ?? 0)} cy={pinRow} r={10} />
            <text x={x(mark.frame ?? 0)} y={pinRow + 4} textAnchor="middle">
              {mark.state === 'shown' ? markInWords(mark) : mark.state === 'not shown' ? '0' : '–'}
            </text>
            <title>{`${letters.get(mark.trait) ?? mark.trait}: ${markInWords(mark)}, frame ${mark.frame}`}</title>
          </g>
        ))}
        <line className="playhead" x1={x(frame)} x2={x(frame)} y1={0} y2={102} />
      </svg>
    </div>
  );
}

/** Rows and sides for the names of moments, so that close ones do not lie over each other. */
function placeLabels(moments: readonly Moment[], x: (frame: number) => number): { moment: Moment; row: number }[] {
  const ends = [-Infinity, -Infinity, -Infinity];
  return moments
    .toSorted((a, b) => a.frame - b.frame)
    .map((moment) => {
      const at = x(moment.frame);
      const length = moment.name.length * 6 + 10;
      const free = ends.findIndex((end) => end < at);
      if (free >= 0) {
        ends[free] = at + length;
        return { moment, row: free };
      }
      const row = ends.indexOf(Math.min(...ends));
      ends[row] = Math.max(ends[row] ?? 0, at + length);
      return { moment, row };
    });
}

function centred(frame: number, length: number, last: number): readonly [number, number] {
  const start = Math.min(Math.max(0, frame - length / 2), Math.max(0, last - length));
  return [start, Math.min(last, start + length)];
}

function niceTick(least: number): number {
  return (
    [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 50_000].find((each) => each >= least) ?? 100_000
  );
}

function niceSeconds(least: number): number {
  return [0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200].find((each) => each >= least) ?? 3600;
}

/** A small triangle under the axis: left foot points up, right foot down. */
function foot(at: number, side: 'left' | 'right'): string {
  return side === 'left' ? `M${at - 4} ${axis + 9} h8 l-4 -6 z` : `M${at - 4} ${axis + 4} h8 l-4 6 z`;
}
