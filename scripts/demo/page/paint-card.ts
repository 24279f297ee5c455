import { FILM } from '../field-measure.ts';

/** What a score card between plays says. */
export type Card = {
  readonly away: string;
  readonly home: string;
  readonly awayScore: number;
  readonly homeScore: number;
  readonly line: string;
  readonly awayColour: string;
  readonly homeColour: string;
};

/** Paints a score card; `progress` runs from 0 to 1 through its time on screen. */
export function paintCard(context: CanvasRenderingContext2D, card: Card, progress: number): void {
  context.globalAlpha = 1;
  context.fillStyle = '#12181c';
  context.fillRect(0, 0, FILM.width, FILM.height);
  context.strokeStyle = 'rgba(239,235,225,0.07)';
  context.lineWidth = 2;
  for (let at = -6; at <= 20; at += 1) {
    const x = at * 90 + progress * 24;
    context.beginPath();
    context.moveTo(x, 0);
    context.lineTo(x - 210, FILM.height);
    context.stroke();
  }
  const row = (name: string, score: number, colour: string, top: number): void => {
    context.fillStyle = colour;
    context.fillRect(190, top, 14, 118);
    context.fillStyle = '#efebe1';
    context.font = '600 66px "IBM Plex Sans", sans-serif';
    context.textAlign = 'left';
    context.textBaseline = 'middle';
    context.fillText(name, 240, top + 60);
    context.font = '600 84px "IBM Plex Sans", sans-serif';
    context.textAlign = 'right';
    context.fillText(String(score), 1090, top + 60);
  };
  row(card.away, card.awayScore, card.awayColour, 206);
  row(card.home, card.homeScore, card.homeColour, 346);
  context.strokeStyle = 'rgba(239,235,225,0.35)';
  context.beginPath();
  context.moveTo(190, 334.5);
  context.lineTo(1090, 334.5);
  context.stroke();
  context.fillStyle = '#9aa3ae';
  context.font = '400 30px "IBM Plex Sans", sans-serif';
  context.textAlign = 'left';
  context.fillText(card.line, 240, 520);
}
