import { X } from 'lucide-react';
import { Button } from '../kit/button.tsx';
import { usePlace } from '../link/place.ts';

/** Trouble in one line at the window's foot: what happened, and what to do; stays until it is put away. */
export function FaultLine() {
  const fault = usePlace((place) => place.fault);
  if (fault === null) return null;
  return (
    <div className="fault-line" role="alert">
      <p>
        <strong>{fault.says}</strong> {fault.next}
      </p>
      <Button kind="quiet" aria-label="Put this message away" onClick={() => usePlace.setState({ fault: null })}>
        <X size={16} aria-hidden />
      </Button>
    </div>
  );
}
