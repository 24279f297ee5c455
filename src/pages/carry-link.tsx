export type OnCarry = (carryNumber: number) => void;

/**
 * A carry's number: on screen a button that shows its film, on paper and in a file a link to its row among the carries
 * cited. A number that no carry has stands as it is.
 */
export function CarryLink(props: {
  readonly number: number;
  readonly listed: ReadonlySet<number>;
  readonly onCarry?: OnCarry | undefined;
}) {
  const { number, listed, onCarry } = props;
  if (!listed.has(number)) return <>{number}</>;
  if (onCarry === undefined) return <a href={`#carry-${number}`}>{number}</a>;
  return (
    <button type="button" className="carry-link" onClick={() => onCarry(number)}>
      {number}
    </button>
  );
}
