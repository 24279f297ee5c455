import { percentScale } from '../../pages/percent.ts';
import { chanceInWords, placeInWords } from './in-words.ts';

/** Above this many places only round ones are written on the axis. */
const everyPlace = 10;

/**
 * The chance of each place as bars from first to last, their height by the square root of the chance, or a large class
 * would show none but the surest; `top` is the chance that fills the height.
 */
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
  let likely = '';
  let rare = '';
  const likeliest: number[] = [];
  for (const [at, chance] of places.entries()) {
    // Less than a fiftieth of the height cannot be seen.
    if (chance < top / 2500) continue;
    const bar = `M${at + 0.06} 1V${(1 - Math.sqrt(Math.min(1, chance / top))).toFixed(3)}H${at + 0.94}V1Z`;
    if (at + 1 >= from && at + 1 <= to) likely += bar;
    else rare += bar;
    if (chance >= 0.005) likeliest.push(at + 1);
  }
  const chanceOf = (place: number): number => places[place - 1] ?? 0;
  const words = likeliest
    .sort((a, b) => chanceOf(b) - chanceOf(a))
    .slice(0, 3)
    .map((place) => `${placeInWords(place)} ${chanceInWords(chanceOf(place))}`)
    .join(', ');
  return (
    <svg
      className="places-strip"
      viewBox={`0 0 ${places.length} 1`}
      preserveAspectRatio="none"
      role="img"
      aria-label={`Chance of each place: ${words}`}
    >
      <path className="places-rare" d={rare} />
      <path className="places-likely" d={likely} />
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
