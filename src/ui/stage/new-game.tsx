import { useState } from 'react';
import { add, type ChangeStep } from '../../contract/changes.ts';
import { Button } from '../kit/button.tsx';
import { Dialog } from '../kit/dialog.tsx';
import { Field } from '../kit/field.tsx';
import { makeChange, newId } from '../link/change.ts';
import { attempt, go, readDirectory, usePlace } from '../link/place.ts';

/** A new game: its two teams, the runner who is watched, and if known his official attempts. */
export function NewGame({ open, onClose }: { open: boolean; onClose: () => void }) {
  const directory = usePlace((place) => place.directory);
  const [form, setForm] = useState({ away: '', home: '', season: '', week: '', runner: '', jersey: '', attempts: '' });
  const put = (key: keyof typeof form) => (event: { target: { value: string } }) =>
    setForm({ ...form, [key]: event.target.value });
  const ready =
    form.away.trim() !== '' &&
    form.home.trim() !== '' &&
    form.away.trim() !== form.home.trim() &&
    form.runner.trim() !== '';
  const make = (): void => {
    const steps: ChangeStep[] = [];
    const teamOf = (name: string): string => {
      const known = directory?.teams.find((team) => team.name.toLowerCase() === name.trim().toLowerCase());
      if (known !== undefined) return known.id;
      const id = newId();
      steps.push(add('team', { id, name: name.trim() }));
      return id;
    };
    const awayTeamId = teamOf(form.away);
    const homeTeamId = teamOf(form.home);
    const gameId = newId();
    const whole = (text: string): number | null => (/^\d+$/.test(text.trim()) ? Number(text) : null);
    steps.push(add('game', { id: gameId, awayTeamId, homeTeamId, season: whole(form.season), week: whole(form.week) }));
    const standing = directory?.runners.find(({ name }) => name.toLowerCase() === form.runner.trim().toLowerCase());
    const runnerId = standing?.id ?? newId();
    if (standing === undefined) {
      steps.push(
        add('runner', {
          id: runnerId,
          name: form.runner.trim(),
          teamId: awayTeamId,
          jersey: whole(form.jersey),
          position: 'running back',
        }),
      );
    }
    const attempts = whole(form.attempts);
    if (attempts !== null) steps.push(add('officialLine', { id: newId(), gameId, runnerId, attempts }));
    void attempt(async () => {
      await makeChange(`Add the game ${form.away.trim()} at ${form.home.trim()}`, steps);
      await readDirectory();
      go({ gameId, runnerId, playId: null });
      onClose();
    });
  };
  return (
    <Dialog title="Add a game" open={open} onClose={onClose}>
      <form
        className="form-grid"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) make();
        }}
      >
        <Field
          label="Away team (the runner’s, if he is new)"
          render={({ id }) => <input id={id} value={form.away} onChange={put('away')} />}
        />
        <Field label="Home team" render={({ id }) => <input id={id} value={form.home} onChange={put('home')} />} />
        <Field
          label="Season"
          render={({ id }) => <input id={id} inputMode="numeric" value={form.season} onChange={put('season')} />}
        />
        <Field
          label="Week"
          render={({ id }) => <input id={id} inputMode="numeric" value={form.week} onChange={put('week')} />}
        />
        <Field
          label="Runner"
          render={({ id }) => <input id={id} list="known-runners" value={form.runner} onChange={put('runner')} />}
        />
        <Field
          label="His number"
          render={({ id }) => <input id={id} inputMode="numeric" value={form.jersey} onChange={put('jersey')} />}
        />
        <Field
          label="Official attempts"
          hint="From the game’s book; leave empty if not known."
          render={({ id, describedBy }) => (
            <input
              id={id}
              aria-describedby={describedBy}
              inputMode="numeric"
              value={form.attempts}
              onChange={put('attempts')}
            />
          )}
        />
        <datalist id="known-runners">
          {directory?.runners.map(({ id, name }) => (
            <option key={id} value={name} />
          ))}
        </datalist>
        <div className="row">
          <Button kind="chosen" type="submit" disabled={!ready}>
            Add the game
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
