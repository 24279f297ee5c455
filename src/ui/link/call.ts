import type { CallInput, CallName, CallOutput } from '../../contract/calls.ts';
import { FaultError, faultOf, type Fault } from '../../contract/faults.ts';

type Answer = { ok: true; value: unknown } | { ok: false; fault: Fault };

/** Asks the door. Rejects with a FaultError, also when the door itself can't be reached. */
export async function call<Name extends CallName>(
  name: Name,
  input: CallInput<Name>,
  signal?: AbortSignal,
): Promise<CallOutput<Name>> {
  let answer: Answer;
  try {
    const response = await fetch(`/call/${name}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(input),
      ...(signal === undefined ? {} : { signal }),
    });
    answer = (await response.json()) as Answer;
  } catch (cause) {
    if (signal?.aborted === true) throw cause;
    throw new FaultError(
      faultOf(
        'internal',
        'Creasebook can no longer be reached.',
        'Start it again; everything acknowledged is kept in the study.',
      ),
    );
  }
  if (!answer.ok) throw new FaultError(answer.fault);
  return answer.value as CallOutput<Name>;
}
