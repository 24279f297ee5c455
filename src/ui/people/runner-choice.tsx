import { go, usePlace } from '../link/place.ts';

/** The runner a room is about, as its title and the way to another. */
export function RunnerChoice() {
  const { directory, runnerId } = usePlace();
  return (
    <h1 className="runner-choice">
      <select aria-label="Runner" value={runnerId ?? ''} onChange={(event) => go({ runnerId: event.target.value })}>
        {directory?.runners.map((runner) => (
          <option key={runner.id} value={runner.id}>
            {runner.name}
          </option>
        ))}
      </select>
    </h1>
  );
}
