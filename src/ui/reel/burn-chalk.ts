import type { Chalk } from '../../contract/rows.ts';
import type { PicturePlace } from '../../film/reel/make-reel.ts';

type Context = OffscreenCanvasRenderingContext2D;
type Point = Chalk['points'][number];

const light = '#f2b544';
const dark = 'rgb(11 15 19 / 70%)';

function along(context: Context, points: readonly Point[]): void {
  context.beginPath();
  for (const [index, [x, y]] of points.entries()) {
    if (index === 0) context.moveTo(x, y);
    else context.lineTo(x, y);
  }
  context.stroke();
}

/** The two strokes of an arrow's head, 25 degrees to either side of the way it came. */
function head(context: Context, points: readonly Point[], size: number): void {
  const tip = points.at(-1);
  if (tip === undefined) return;
  const before = points.findLast(([x, y]) => Math.hypot(tip[0] - x, tip[1] - y) > size / 4);
  if (before === undefined) return;
  const back = Math.atan2(before[1] - tip[1], before[0] - tip[0]);
  const wing = (turn: number): Point => [tip[0] + size * Math.cos(back + turn), tip[1] + size * Math.sin(back + turn)];
  along(context, [wing(0.44), tip, wing(-0.44)]);
}

function strokes(context: Context, { kind, points }: Chalk, size: number): void {
  switch (kind) {
    case 'ring': {
      const [centre, rim] = points;
      if (centre === undefined || rim === undefined) return;
      context.beginPath();
      context.arc(centre[0], centre[1], Math.hypot(rim[0] - centre[0], rim[1] - centre[1]), 0, 2 * Math.PI);
      context.stroke();
      return;
    }
    case 'arrow':
    case 'lane':
      if (kind === 'lane') context.setLineDash([size, size * 0.8]);
      along(context, points);
      context.setLineDash([]);
      head(context, points, size);
      return;
    case 'line':
    case 'freehand':
    case 'distance':
      along(context, points);
      return;
    case 'text':
  }
}

function words(context: Context, { kind, points, text }: Chalk, unit: number): void {
  const at = points.at(-1);
  if (text === null || at === undefined) return;
  const away = kind === 'text' ? 0 : unit * 2.5;
  context.font = `600 ${unit * 6}px 'IBM Plex Sans Condensed', sans-serif`;
  context.textAlign = 'left';
  context.textBaseline = 'alphabetic';
  context.strokeStyle = dark;
  context.lineWidth = unit * 1.2;
  context.strokeText(text, at[0] + away, at[1] - away);
  context.fillStyle = light;
  context.fillText(text, at[0] + away, at[1] - away);
}

/** Draws the chalk that lies on a frame over its picture, dark under light, as the Stage shows it. `filmWidth` in film pixels. */
export function burnChalk(
  context: Context,
  chalk: readonly Chalk[],
  frame: number,
  filmWidth: number,
  place: PicturePlace,
): void {
  const here = chalk.filter(({ fromFrame, toFrame }) => fromFrame <= frame && frame <= toFrame);
  if (here.length === 0) return;
  const unit = filmWidth / 256;
  context.save();
  context.translate(place.left, place.top);
  context.scale(place.width / filmWidth, place.width / filmWidth);
  context.lineCap = 'round';
  context.lineJoin = 'round';
  for (const each of here) {
    for (const [colour, width] of [
      [dark, unit * 2.2],
      [light, unit],
    ] as const) {
      context.strokeStyle = colour;
      context.lineWidth = width;
      strokes(context, each, unit * 5);
    }
    words(context, each, unit);
  }
  context.restore();
}
