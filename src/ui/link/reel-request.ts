import { create } from 'zustand';
import { call } from './call.ts';
import { say } from './place.ts';

/** A play asked for in a reel: where it is, what its card says, and the frame that tells which view is meant. */
export type ReelPlay = {
  readonly gameId: string;
  readonly playId: string;
  readonly spanId: string | null;
  readonly at: { readonly filmId: string; readonly frame: number } | null;
  readonly title: string;
  readonly caption: string;
};

/** What a reel was asked of; null: no reel is being put together. */
export type ReelRequest = { readonly name: string; readonly plays: readonly ReelPlay[] };

export const useReelRequest = create<{ readonly request: ReelRequest | null }>(() => ({ request: null }));

/** Opens the reel over any room; says so when there is nothing to show. */
export function askForReel(name: string, plays: readonly ReelPlay[]): void {
  if (plays.length === 0) say('A reel needs a play with film.');
  else useReelRequest.setState({ request: { name, plays } });
}

/** Opens a reel of a runner's evidence, or of all his carries where no evidence is chosen yet. */
export async function askForRunnerReel(runnerId: string, evaluatorId: string | null): Promise<void> {
  const { sheet, evidence } = await call('dossier.read', { runnerId, evaluatorId });
  const carries = new Map(sheet.carries.map((carry) => [carry.partId, carry]));
  const shown = evidence.flatMap(({ partId, filmId, frame, caption, against }): ReelPlay[] => {
    const carry = carries.get(partId);
    if (carry === undefined) return [];
    const { gameId, playId, spanId, situation, run } = carry;
    const words = [run, caption, against ? 'evidence against' : ''].filter((part) => part !== '').join(' · ');
    return [{ gameId, playId, spanId, at: { filmId, frame }, title: situation, caption: words }];
  });
  const all = sheet.carries
    .filter(({ spanId }) => spanId !== null)
    .map(({ gameId, playId, spanId, situation, run }): ReelPlay => {
      return { gameId, playId, spanId, at: null, title: situation, caption: run };
    });
  askForReel(sheet.runner.name, shown.length > 0 ? shown : all);
}
