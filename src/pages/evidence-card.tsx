import type { EvidenceView } from '../contract/views.ts';
import { CarryLink, type OnCarry } from './carry-link.tsx';
import { ChalkOverStill } from './chalk-over-still.tsx';

/** Where a still's picture can be had; null when it can't. */
export type StillSource = (stillId: string) => string | null;

export type EvidenceCardProps = {
  readonly evidence: EvidenceView;
  readonly still: StillSource;
  readonly listed: ReadonlySet<number>;
  readonly onCarry?: OnCarry | undefined;
};

/** One carry as evidence: its still with the chalk on it, its situation and a line; a still that can't be had says why in its place. */
export function EvidenceCard({ evidence, still, listed, onCarry }: EvidenceCardProps) {
  const { number, heading, caption, against, frame, stillId, missing, picture } = evidence;
  const source = stillId === null ? null : still(stillId);
  return (
    <figure className="evidence">
      <div className="still-frame">
        {source === null ? (
          <p className="still-missing">
            {missing ?? `No still of frame ${frame}: the film has not been decoded since this carry was chosen.`}
          </p>
        ) : (
          <>
            <img className="still" src={source} alt={`Still of carry ${number}, frame ${frame}: ${heading}`} />
            {picture !== undefined && <ChalkOverStill picture={picture} />}
          </>
        )}
      </div>
      <figcaption>
        <strong>
          <CarryLink number={number} listed={listed} onCarry={onCarry} />
        </strong>{' '}
        {heading}
        {heading !== '' && !/[.!?]$/.test(heading) && '.'} {caption}
        {against && <em className="against"> Against.</em>}
      </figcaption>
    </figure>
  );
}
