import { percentScale } from '../../pages/percent.ts';
import { chanceInWords, placeInWords } from './in-words.ts';

/** Above this many places only round ones are written on the axis. */
const everyPlace = 10;

/** The chance of each place as bars from first to last; `top` is the chance that fills the height. */
export function PlacesStrip({
  places,
  top,
  from,
  to,
}: {
  readonly places: readonly number[];
  readonly top: number;
  readonly from: number;
  readonly to: number;
}) {
  const bars = (wanted: (place: number) => boolean): string =>
    places
      .map((chance, at) => {
        const height = Math.min(1, chance / top);
        return wanted(at + 1) && chance > 0 ? `M${at + 0.06} 1V${(1 - height).toFixed(4)}H${at + 0.94}V1Z` : '';
      })
      .join('');
  const likeliest = places
    .map((chance, at) => ({ chance, place: at + 1 }))
    .toSorted((a, b) => b.chance - a.chance)
    .slice(0, 3)
    .filter(({ chance }) => chance >= 0.005)
    .map(({ chance, place }) => `${placeInWords(place)} ${chanceInWords(chance)}`);
  return (
    <svg
      className="places-strip"
      viewBox={`0 0 ${places.length} 1`}
      preserveAspectRatio="none"
      role="img"
      aria-label={`Chance of each place: ${likeliest.join(', ')}`}
    >
      <path className="places-rare" d={bars((place) => place < from || place > to)} />
      <path className="places-likely" d={bars((place) => place >= from && place <= to)} />
      <path className="places-ground" d={`M0 1H${places.length}`} />
    </svg>
  );
}

/** The axis over the strips: places from first to last. */
export function PlacesAxis({ count }: { readonly count: number }) {
  const along = percentScale(0, count);
  const step = count <= everyPlace ? 1 : count <= 24 ? 4 : 10;
  const places = Array.from({ length: count }, (_, at) => at + 1).filter(
    (place) => place === 1 || (place % step === 0 && count - place >= step / 2) || place === count,
  );
  return (
    <svg className="places-axis" width="100%" height="100%" aria-hidden="true">
      {places.map((place) => (
        <text key={place} className="axis-figure" x={along(place - 0.5)} y="80%" textAnchor="middle">
          {place}
        </text>
      ))}
    </svg>
  );
}
