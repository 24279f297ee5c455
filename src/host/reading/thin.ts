import type { SheetView } from '../../contract/views.ts';
import type { Known } from '../../core/known.ts';
import type { Unlogged } from '../../core/plays/completeness.ts';

/** What a sheet rests on too little of, in sentences a director can read out. */
export function thinInWords(sheet: SheetView, missed: Known<Unlogged>): string[] {
  const said: string[] = [];
  const { completeness, carries, families } = sheet;
  if (carries.length === 0) return ['No carry is logged yet.'];
  if (completeness.known && !completeness.value.complete) {
    const { logged, official } = completeness.value;
    const differ = missed.known
      ? ` The unlogged ${missed.value.carries} gained ${missed.value.unloggedMean.toFixed(1)} yards each, the logged ${missed.value.loggedMean.toFixed(1)}.`
      : '';
    said.push(`Only ${logged} of ${official} official carries are logged; a selective log can mislead.${differ}`);
  } else if (!completeness.known) {
    said.push(`${completeness.detail} Whether the log is complete is not known.`);
  }
  const traits = families.flatMap((family) => family.traits);
  const unmarked = traits.filter(({ grade }) => !grade.known).map(({ name }) => name.toLowerCase());
  if (unmarked.length > 0) said.push(`Not marked on any carry: ${unmarked.join(', ')}.`);
  for (const { name, grade, shown, unlooked } of traits) {
    if (grade.known && grade.value.thin) {
      const unseen = unlooked === 1 ? '1 carry is' : `${unlooked} carries are`;
      const more = unlooked > 0 ? `; ${unseen} not yet looked at for it` : '';
      said.push(
        `${name} rests on ${shown} ${shown === 1 ? 'carry' : 'carries'} in ${grade.value.games} game${grade.value.games === 1 ? '' : 's'}${more}.`,
      );
    }
  }
  const games = new Set(carries.map(({ gameId }) => gameId)).size;
  if (games < 3)
    said.push(`${games === 1 ? 'One game is' : 'Two games are'} logged: the spread between games is a guess.`);
  const assumed = new Set(traits.flatMap(({ grade }) => (grade.known ? grade.value.assumed : [])));
  if (assumed.size > 0) said.push(`Assumed rather than estimated from this study: ${[...assumed].join(', ')}.`);
  return said;
}
