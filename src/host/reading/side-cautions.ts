import type { Side, SideBySideView } from '../../contract/comparison-views.ts';

const counted = (side: Side): number => side.carries.filter(({ counts }) => counts).length;

function ofOneSide(side: Side): string[] {
  const { name } = side.runner;
  const carries = counted(side);
  if (carries === 0) return [`${name} has no logged carry: log one on the Stage.`];
  const said: string[] = [];
  if (carries === 1) said.push(`${name} has one carry: one carry says next to nothing.`);
  else if (side.games === 1) said.push(`${name} has one game: how far his games differ is a guess.`);
  if (side.evaluators.length === 0)
    said.push(`${name} has no marks here: only his results can be set beside the other’s.`);
  if (side.overall.known && side.overall.value.thin) said.push(`${name} is thin: his grades lean on the class.`);
  return said;
}

/** What a comparison rests on too little of, in sentences; `notComparable` says why grades can't be compared, if so. */
export function cautionsOf({ first, second, pairs }: SideBySideView, notComparable: string | null): string[] {
  const said = [...ofOneSide(first), ...ofOneSide(second)];
  if (notComparable !== null) said.push(notComparable);
  const people = new Set([...first.evaluators, ...second.evaluators]);
  const [one] = people;
  if (people.size === 1 && one !== undefined) said.push(`All marks here are by one evaluator, ${one}.`);
  if (!pairs.known && counted(first) > 0 && counted(second) > 0)
    said.push('The two never ran in situations close enough to pair: choose a carry for each by hand.');
  return said;
}
